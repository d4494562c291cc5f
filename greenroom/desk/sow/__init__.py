"""The Sow page: packets into the cells of trays and racks."""
