"""Published works that several of the reasons cite."""

from __future__ import annotations

from greenroom.speech import tr

DEGREE_DAYS = (
    "McMaster, G. S. and Wilhelm, W. W. 1997. Growing degree-days: one equation, two interpretations. "
    "Agricultural and Forest Meteorology 87:291-300."
)
SCORE_INTERVAL = tr(
    "Wilson, E. B. 1927. Journal of the American Statistical Association 22:209-212 (score interval)."
)
QUANTILES = tr(
    "Hyndman, R. J. and Fan, Y. 1996. Sample quantiles in statistical packages. The "
    "American Statistician 50(4): 361-365 (type 7)."
)
