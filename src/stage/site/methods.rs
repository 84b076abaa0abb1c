//! The methods of the site stage, with their sources.

use crate::stage::method::Method;

/// The methods of this stage.
pub static METHODS: &[Method] = &[
    Method {
        id: "weather-file",
        title: "Hourly weather of a typical year",
        what: "A file of 8760 hours is read by column name and audited: count, ranges, and whether its clock fits the \
               sun. The year is typical, not extreme: a record low must be entered by hand.",
        source: "NREL TMY3 and TMY2 manuals (format verified on files); EPW public format definition",
        code: "climate::Climate::from_bytes",
    },
    Method {
        id: "solar-geometry",
        title: "Height of the sun at noon",
        what: "From the latitude and the declination at the solstices, ±23.45°.",
        source: "Cooper 1969, as in Duffie & Beckman 1.6.1 (examples verified)",
        code: "stage::site::noon_heights",
    },
    Method {
        id: "hay-davies",
        title: "Sun on a tilted plane, circumsolar model",
        what: "Beam on the plane, the part of the diffuse light that comes from around the sun, an even rest of the sky, \
               and light reflected by the ground; the sun's position at mid-hour by the NREL algorithm.",
        source: "Hay & Davies 1980; Reda & Andreas 2004 (both verified against a general-purpose solar library)",
        code: "climate::Climate::plane, physics::transposition",
    },
    Method {
        id: "isotropic",
        title: "Sun on a tilted plane, even sky",
        what: "As above with a sky that is equally bright everywhere: the cautious end of the band.",
        source: "Liu & Jordan 1963",
        code: "climate::Climate::plane, physics::transposition",
    },
    Method {
        id: "perez",
        title: "Sun on a tilted plane, bright horizon",
        what: "As above with a bright disc around the sun and a bright horizon: the hopeful end of the band.",
        source: "Perez et al. 1990 (coefficients verified in a general-purpose solar library)",
        code: "climate::Climate::plane, physics::transposition",
    },
    Method {
        id: "mains-water",
        title: "Temperature of mains water",
        what: "A sine about the mean air of the year, damped and delayed by the ground. Fitted to towns of the United \
               States; a well is nearly constant instead.",
        source: "Burch & Christensen 2007 (constants verified in public code, the paper from memory)",
        code: "physics::mains::temperature",
    },
    Method {
        id: "weather-order",
        title: "What sun and weather rest on",
        what: "A weather file; where it is missing or damaged, twelve monthly means kept in the project (daily light \
               spread by the handbook's profiles, the diffuse share by the monthly correlation, the air by its mean \
               daily swing: a year on a plane within 2.2 %, a month within 7 % at middle latitudes); where these are \
               missing too, a year without a cloud, which is an upper bound and not a yield. The figure \
               site.rests_on names it, a check says why nothing better was used.",
        source: "Collares-Pereira & Rabl 1979, Liu & Jordan 1960, Erbs et al. 1982 (verified), Erbs et al. 1983 (from \
                 memory), Ineichen & Perez 2002 (verified)",
        code: "stage::site::basis, climate::Climate::from_monthly_means, climate::Climate::clear_sky",
    },
    Method {
        id: "great-circle",
        title: "Distance along the ground",
        what: "The haversine formula on a sphere of 6371 km.",
        source: "any text on navigation (from memory)",
        code: "physics::great_circle::distance",
    },
    Method {
        id: "wind-height",
        title: "Wind at the height of the panels",
        what: "Power law from the station's mast at 10 m, times the share that walls and hedges leave. Exponents 0.10 \
               water, 0.15 grass, 0.20 crops, 0.25 houses and trees; below 2 m the wind at 2 m.",
        source: "engineering tables (exponents verified on a page)",
        code: "stage::site::frost::Sheltered, physics::atmosphere::wind_at",
    },
    Method {
        id: "plate-frost",
        title: "Plate under the night sky",
        what: "The glass radiates to the sky and takes heat from the air; a still plate follows it. One pane, emittance \
               0.88, 4 W/(m²·K) across the gap, 0.8 through the back (project values), wind at the panels, held at \
               20 m/s. Dark hours only, no stored heat, no dew or rime, which slow the cooling.",
        source: "plate balance of any solar engineering text; wind law 2.8 + 3v from memory",
        code: "physics::freezing::night_plate, stage::site::frost",
    },
    Method {
        id: "sky-temperature",
        title: "Temperature of the sky",
        what: "Infrared of the file; else clouds and dew point; else dew point under a clear sky; else air alone. The \
               two clear-sky laws are about 5 K too cold on average.",
        source: "Clark & Allen 1978 with Walton 1983 (verified on a file), Berdahl & Martin 1984 (verified), Swinbank \
                 1963 (from memory)",
        code: "physics::sky::temperature",
    },
    Method {
        id: "true-north",
        title: "Which way the panels face",
        what: "Azimuths count clockwise from true north. A compass shows magnetic north: the declination, east \
               positive, is added.",
        source: "convention of this project",
        code: "stage::site::sun::azimuth",
    },
    Method {
        id: "skyline",
        title: "Sun behind the skyline",
        what: "A table of bearings and heights, linear between them, closed over north. Beam and circumsolar light are \
               cut while the sun is behind it, the even sky light is scaled by the part of the sky that is left, light \
               from the ground is kept.",
        source: "geometry; the sky integral checked against its closed form for an even skyline",
        code: "physics::horizon::Horizon, climate::Climate::plane_behind",
    },
    Method {
        id: "tilt-scan",
        title: "Best tilt and best way to face",
        what: "Every whole degree of tilt by the circumsolar model behind the skyline; for the way to face every \
               5° first and then every degree around the best. The best is flat: the range within 1 % of it matters more.",
        source: "Hay & Davies 1980; a scan cannot miss",
        code: "climate::Scan, stage::site::orientation",
    },
    Method {
        id: "row-shade",
        title: "Shade of one row on the next",
        what: "Long rows on level ground, by the sun's height across the rows. Only beam and circumsolar light count; \
               the sky that the front row hides is left out.",
        source: "Duffie & Beckman section 1.9 (distances computed with a script for 36, 45 and 55 degrees)",
        code: "physics::horizon::Rows, stage::site::spacing",
    },
];
