"""The standing cautions: they go with every paper that carries a check, and say what a planning figure is not."""

STANDING = (
    "These figures are planning checks, not an approval; a named engineer releases the job.",
    "The makers' instructions for fasteners, bearings, gaskets, pistons and fuel govern.",
    "Local road, noise, emission and event rules govern; the customer sees to them.",
    "Pressure, lifting and road approval are for licensed practice.",
    "Guard rotating parts on any test stand; never open a hot or pressurised coolant or oil circuit.",
)
