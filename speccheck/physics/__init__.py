"""The physics and the dimensions behind the clauses: pure functions over NumPy arrays, SI inside.

What comes in: numbers or arrays in metres, kelvins, W/(m K), pascals, and the trade's nominal sizes in inches.
What goes out: arrays of the same shape. A value that cannot be had is NaN, never a guess; where a result carries
causes, `Cause` says why, element by element. Nothing here knows a clause or touches a file of the user.

Files:

    air                   properties of dry air at film temperature and pressure
    buried                single pipes buried in soil: heat flow by the shape factor of a cylinder under an even surface
    burns                 the least surface temperature at which a touch of a stated time may burn, by what is touched
    calculations          what the computed terms of a vocabulary are worked out by, each with its inputs, formula and
                          source
    convection            natural and forced convection in air from cylinders and plates: Nusselt numbers, and the
                          blend of both
    design                from declared to design conductivity: factors for temperature, moisture, aging and joints
    dimensions            outside diameter and bore of pipe and tube, and the actual outside diameter of insulation on
                          them
    equivalent_thickness  thickness of another material for the same performance, and thickness from a fixed surface
                          coefficient
    freezing              how long still water in an insulated pipe takes to cool and to freeze, and the thickness
                          that gives it longer
    heat_flow             surface temperature and heat flow of many insulated systems at once
    materials             what their standards allow, conductivity by mean temperature, and the emittance of jackets
                          and surfaces
    moisture              how much water vapor the insulation of cold pipe takes up, what it conducts when wet, and how
                          far vapor spreads from a breach
    numerics              a bracketing root finder for many equations at once, and the array types that the whole
                          floor speaks of
    psychrometrics        saturation pressure over water and ice, dew point, wet bulb, humidity ratio, pressure at
                          altitude
    published             published tables read from `tables/`, with source and mark, and the simplified coefficients
                          of ISO 12241 (from memory)
    radiation             radiation between a surface and its surroundings, taken as large and black
    ranges                which systems cannot be answered, and why
    runs                  how fluid that flows cools along pipe and duct, how long fluid that stands keeps its
                          temperature
    surface_coefficient   convection and radiation put together, by a method chosen by name
    systems               an insulated system, or many at once: what is inside, the layers with their resistances, the
                          surface and the air round it
    thickness             minimum thickness of one more layer: against condensation, for a touch limit, for a heat-flow
                          limit
    vapor                 water vapor through layers, and the spacing that a count implies
    weather               weather of a year as hours by air temperature and humidity: how it is written down
    weather_words         the words of such weather: its name, its entries apart, and how it is told in short
    working               a computed value that explains itself (inputs, method, steps, source), and the causes for
                          which there is none
    year                  a year of a line: heat, energy, cost and carbon from its heat flow, and the thickness that
                          costs least over its life
"""
