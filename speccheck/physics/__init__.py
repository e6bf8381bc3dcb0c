"""The physics and the dimensions behind the clauses: pure functions over NumPy arrays, SI inside.

What comes in: numbers or arrays in metres, kelvins, W/(m K), pascals, and the trade's nominal sizes in inches.
What goes out: arrays of the same shape. A value that cannot be had is NaN, never a guess; where a result carries
causes, `Cause` says why, element by element. Nothing here knows a clause or touches a file of the user.

Ground
    arrays                the array types
Dimensions
    pipes                 steel pipe and copper tube: outside diameter, bore
    insulation_sizes      actual outside diameter of the insulation, from the published tables where they cover it
Air and moisture
    psychrometrics        saturation pressure, dew point, wet bulb, humidity ratio, pressure at altitude
    air                   dry-air properties at film temperature
Heat
    radiation, natural_convection, forced_convection, simplified_coefficients
                          the parts of a surface coefficient
    surface_coefficient   the parts put together, by a method chosen by name
    layers, conductivity  resistances, and conductivity that varies with mean temperature
    systems, heat_flow    many insulated systems at once: surface temperature and heat flow to a stated residual
    ranges                which systems cannot be answered, and why
    runs                  what the heat flow does to the fluid along a run
    roots                 the bracketing root finder that they share
Answers
    thickness             minimum thickness against condensation, touch, heat flow, freezing; next stocked thickness
    equivalent_thickness  the same performance with another conductivity
    freezing              how long still water takes to cool and to freeze
    vapor                 permeance of layers, spacing implied by counts
    burns                 the temperature from which a touch may burn, by material and time of contact
Published facts
    emittance, materials  surfaces and material standards
    comparisons           measured systems, permeances and fixed coefficients, for comparison
    published             reads the tables in `tables/`, each with its source and mark at the top
Explanations
    causes                why a value cannot be had
    working               a computed value that shows its inputs, method, steps and source
    calculation           what a calculation is; working one out for many lines, each of which can be explained
    calculations          every computed value by name: work_out for one line, work_out_lines for many
    calculations_air, calculations_dimensions, calculations_heat, calculations_freezing, calculations_vapor
                          the calculations themselves

Files:

    air                   properties of dry air at film temperature and pressure
    burns                 the least surface temperature at which a touch of a stated time may burn, by what is touched
    calculations          what the computed terms of a vocabulary are worked out by, each with its inputs, formula and
                          source
    comparisons           published values for comparison, none of them a limit: measured systems, permeances of
                          films, fixed coefficients
    convection            natural and forced convection in air from cylinders and plates: Nusselt numbers, and the
                          blend of both
    dimensions            outside diameter and bore of pipe and tube, and the actual outside diameter of insulation on
                          them
    equivalent_thickness  thickness of another material for the same performance, and thickness from a fixed surface
                          coefficient
    freezing              how long still water in an insulated pipe takes to cool and to freeze, and the thickness
                          that gives it longer
    heat_flow             surface temperature and heat flow of many insulated systems at once
    materials             what their standards allow, conductivity by mean temperature, and the emittance of jackets
                          and surfaces
    numerics              a bracketing root finder for many equations at once, and the array types that the whole
                          floor speaks of
    psychrometrics        saturation pressure over water and ice, dew point, wet bulb, humidity ratio, pressure at
                          altitude
    published             published tables read from `tables/`, with source and mark, and the simplified coefficients
                          of ISO 12241 (from memory)
    radiation             radiation between a surface and its surroundings, taken as large and black
    ranges                which systems cannot be answered, and why
    runs                  what a heat flow does to the fluid along a run of pipe or duct
    surface_coefficient   convection and radiation put together, by a method chosen by name
    systems               an insulated system, or many at once: what is inside, the layers with their resistances, the
                          surface and the air round it
    thickness             minimum thickness of one more layer: against condensation, for a touch limit, for a heat-flow
                          limit
    vapor                 water vapor through layers, and the spacing that a count implies
    working               a computed value that explains itself (inputs, method, steps, source), and the causes for
                          which there is none
"""
