"""Calculations: what the computed terms of a vocabulary are worked out by, each with its inputs, formula and source.

Files:

    air          calculations about the air round the insulation
    all          every computed value by name: work it out for one line with its working, or for many lines at once
    buried       calculations about pipes in soil
    calculation  what a calculation is, and how it is worked out for many lines at once, each of which can be
                 explained by itself
    design       calculations about design conductivity: factors on what is declared, and the surface with it
    dimensions   calculations about dimensions and about what the tables say of a material
    freezing     calculations about still water in cold surroundings
    heat         surface temperature, heat flow, and the minimum thickness for an outcome
    layers       the insulation of the lines as layers, each with its conductivity by mean temperature
    moisture     calculations about water in cold insulation: what a year brings, what it conducts then, how far a
                 breach reaches
    outdoors     calculations about surfaces among walls, in the sun and under the sky
    runs         calculations about runs: fluid that flows and that stands, ice, heat tracing, what bare parts add
    surfaces     the lines as systems: their shapes, faces and methods, and what they lack
    tanks        calculations about whole tanks: what shell and ends lose together
    touch        calculations about hands on surfaces: the temperature from which a touch may burn
    weather      calculations about the weather of a year: hours in which a surface sweats, and the dew point that few
                 hours exceed
    vapor        calculations about water vapor and about counts in a run
    year         calculations about a year: heat, energy, cost and carbon of a run as proposed, as required and bare
"""
