"""The style sheet of the window; @names are colours of the palette in ``look``."""

from __future__ import annotations

from dataclasses import fields
from pathlib import Path

from greenroom.desk.look import BODY_PX, CARD_TITLE_PX, PAGE_TITLE_PX, RADIUS, Palette
from greenroom.own_files import resources_folder

SHEET = f"""
* {{ font-size: {BODY_PX}px; color: @ink; }}
QWidget#page, QMainWindow, QWidget#ground {{ background: @ground; }}
QScrollArea, QScrollArea > QWidget > QWidget#ground {{ background: transparent; border: none; }}
QLabel {{ background: transparent; }}
QFrame#rule {{ background: @edge; }}
QWidget#top-bar {{ background: @card; }}
QPushButton:checked {{ background: @leaf; color: @on_leaf; border-color: @leaf; }}
QLabel[role="page-title"] {{ font-size: {PAGE_TITLE_PX}px; font-weight: 700; }}
QLabel[role="title"] {{ font-size: {CARD_TITLE_PX}px; font-weight: 600; }}
QLabel[role="quiet"] {{ color: @quiet; }}
QLabel[role="strong"] {{ font-weight: 600; }}
QLabel[role="good"] {{ color: @leaf_text; font-weight: 600; }}
QLabel[role="alert"] {{ color: @clay_text; font-weight: 600; }}
QFrame[role="card"] {{ background: @card; border: 1px solid @edge; border-radius: {RADIUS}px; }}
QFrame[role="notice"] {{ background: @clay_wash; border: 1px solid @clay; border-radius: {RADIUS}px; }}
QFrame[role="hint"] {{ background: @leaf_wash; border: none; border-radius: {RADIUS}px; }}
QFrame[role="job"] {{ background: transparent; border: 2px solid transparent; border-top: 1px solid @line; }}
QFrame[role="job"][urgent="yes"] {{ background: @clay_wash; border: 2px solid @clay; border-radius: 6px; }}
QFrame[role="job"]:focus {{ background: @leaf_wash; border: 2px solid @focus; border-radius: 6px; }}
QFrame[role="job"][urgent="yes"]:focus {{ background: @clay_wash; }}
QPushButton#job-done[kind=""] {{ border-color: @leaf; }}
QToolButton#job-more::menu-indicator {{ image: none; width: 0; }}
QPushButton {{ background: @card; border: 1px solid @edge; border-radius: 6px; padding: 5px 12px;
    min-height: 18px; font-weight: 500; }}
QPushButton[kind="small"] {{ padding: 3px 8px; }}
QPushButton:hover {{ background: @leaf_wash; }}
QPushButton:disabled {{ color: @quiet; background: @ground; }}
QPushButton[kind="primary"] {{ background: @leaf; color: @on_leaf; border: 1px solid @leaf;
    font-weight: 600; }}
QPushButton[kind="primary"]:disabled {{ background: @leaf_wash; color: @quiet; border-color: @edge; }}
QPushButton[kind="sun"] {{ border: 2px solid @sun; }}
QPushButton[kind="clay"] {{ border: 2px solid @clay; }}
QPushButton[kind="plum"] {{ border: 2px solid @plum; }}
QPushButton[kind="urgent"] {{ background: @clay; color: @on_clay; border: 1px solid @clay;
    font-weight: 600; }}
QPushButton[kind="link"], QToolButton[kind="link"] {{ background: transparent; border: 1px solid transparent;
    color: @link; font-weight: 500; padding: 3px 4px; }}
QPushButton[kind="link"]:hover, QToolButton[kind="link"]:hover {{ text-decoration: underline; }}
QToolButton {{ background: transparent; border: 1px solid transparent; border-radius: 6px; padding: 4px;
    min-width: 18px; min-height: 18px; }}
QToolButton:hover {{ background: @leaf_wash; }}
QLineEdit, QComboBox, QSpinBox, QDoubleSpinBox, QDateEdit, QTimeEdit, QDateTimeEdit,
QPlainTextEdit {{ background: @card;
    border: 1px solid @rim; border-radius: 6px; padding: 4px 6px; min-height: 20px;
    selection-background-color: @leaf; selection-color: @on_leaf; placeholder-text-color: @quiet; }}
QComboBox QAbstractItemView {{ background: @card; border: 1px solid @rim; outline: none;
    selection-background-color: @leaf; selection-color: @on_leaf; }}
QComboBox::drop-down, QDateEdit::drop-down {{ border: none; width: 22px; }}
QComboBox::down-arrow, QDateEdit::down-arrow {{ width: 0; height: 0;
    border-left: 4px solid @card; border-right: 4px solid @card; border-top: 5px solid @quiet; }}
QAbstractSpinBox::up-button, QAbstractSpinBox::down-button {{ border: none; width: 20px;
    subcontrol-origin: padding; }}
QAbstractSpinBox::up-button {{ subcontrol-position: top right; }}
QAbstractSpinBox::down-button {{ subcontrol-position: bottom right; }}
QAbstractSpinBox::up-arrow, QAbstractSpinBox::down-arrow {{ width: 0; height: 0;
    border-left: 4px solid @card; border-right: 4px solid @card; }}
QAbstractSpinBox::up-arrow {{ border-bottom: 5px solid @quiet; }}
QAbstractSpinBox::down-arrow {{ border-top: 5px solid @quiet; }}
QComboBox QLineEdit {{ border: none; background: transparent; padding: 0; min-height: 0; }}
QRadioButton::indicator, QCheckBox::indicator {{ width: 14px; height: 14px; border: 1px solid @quiet;
    background: @card; }}
QRadioButton, QCheckBox {{ min-height: 24px; }}
QRadioButton::indicator {{ border-radius: 8px; }}
QCheckBox::indicator {{ border-radius: 3px; }}
QRadioButton::indicator:checked {{ width: 6px; height: 6px; border: 5px solid @leaf;
    background: @on_leaf; }}
QCheckBox::indicator:checked {{ border: 1px solid @leaf; background: @leaf; image: url("!tick"); }}
QTableView, QListView, QTreeView {{ background: @card; alternate-background-color: @ground;
    border: 2px solid transparent;
    gridline-color: @line; selection-background-color: @leaf_wash; selection-color: @ink; outline: none; }}
QTableView::item {{ padding: 0 5px; }}
QTableView::item:selected {{ border-top: 1px solid @leaf; border-bottom: 1px solid @leaf; }}
QHeaderView, QTableCornerButton::section {{ background: @card; border: none; }}
QHeaderView::section {{ background: @card; color: @quiet; border: none; border-bottom: 1px solid @edge;
    padding: 6px 8px; font-weight: 600; text-align: left; }}
QPushButton:focus, QToolButton:focus, QLineEdit:focus, QComboBox:focus, QSpinBox:focus, QDateEdit:focus,
QTimeEdit:focus, QDateTimeEdit:focus, QDoubleSpinBox:focus, QTableView:focus, QListView:focus,
QPlainTextEdit:focus, QCheckBox:focus, QRadioButton:focus {{ border: 2px solid @focus; }}
QPushButton[kind]:focus, QToolButton[kind]:focus, QPushButton:checked:focus {{ border: 2px solid @focus; }}
QMenu {{ background: @card; border: 1px solid @rim; padding: 4px; }}
QMenu::item {{ padding: 6px 24px 6px 12px; border: 1px solid transparent; border-radius: 4px; }}
QMenu::item:selected {{ background: @leaf_wash; border: 1px solid @leaf; }}
QToolTip {{ background: @card; color: @ink; border: 1px solid @rim; padding: 4px; }}
QProgressBar {{ background: @ground; border: none; border-radius: 4px; height: 8px; text-align: center; }}
QProgressBar::chunk {{ background: @leaf; border-radius: 4px; }}
QAbstractScrollArea::corner {{ background: transparent; border: none; }}
QScrollBar:vertical {{ background: transparent; width: 10px; margin: 0; }}
QScrollBar::handle:vertical {{ background: @rim; border-radius: 3px; margin: 0 2px; min-height: 32px; }}
QScrollBar:horizontal {{ background: transparent; height: 10px; margin: 0; }}
QScrollBar::handle:horizontal {{ background: @rim; border-radius: 3px; margin: 2px 0; min-width: 32px; }}
QScrollBar::add-line, QScrollBar::sub-line, QScrollBar::add-page, QScrollBar::sub-page {{ background: none;
    border: none; width: 0; height: 0; }}
"""


def _tick() -> str:
    """Return the file of the tick in a check box, as a style sheet names it."""
    return Path(str(resources_folder() / "icons" / "tick.svg")).as_posix()


def stylesheet(palette: Palette) -> str:
    """Return the style sheet of the whole window for a palette."""
    sheet = SHEET.replace("!tick", _tick())
    for entry in sorted(fields(palette), key=lambda one: -len(one.name)):
        sheet = sheet.replace(f"@{entry.name}", getattr(palette, entry.name))
    return sheet
