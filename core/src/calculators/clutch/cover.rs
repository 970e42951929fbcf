//! What does the cover press with, and what does it ask of the bearing, new and worn?
//!
//! Either the maker's figures, carried over to a worn plate by a share, or everything from the spring's dimensions.

use super::diaphragm::{Circles, Cover, Diaphragm, Plate, Ring, Turns, dish_factor};
use super::load_curve::{LoadCurve, Point};
use super::release::{Lift, bearing_travel, finger_shift, travel_to_peak};
use super::{
    BEARING_LOAD, BEARING_LOAD_HOLD, BEARING_LOAD_WHEN_WORN, BEARING_TRAVEL, CLAMP_LOAD, CLAMP_NEW, CLAMP_WHEN_WORN, CLAMP_WORN, CLEARANCE,
    COVER_FIGURES, CUSHION, CoverFigures, FACING_WEAR, FINGER_CIRCLE, FINGER_RATIO, FINGER_RATIO_IN_FORCE, FINGER_SHIFT, FINGER_STIFFNESS,
    LINING, LOAD_HOLD, LOAD_HOLD_WORN, LOAD_PEAK, LOAD_PEAK_WORN, Lining, PIVOT_CIRCLE, PLATE_CIRCLE, PLATE_LIFT, RUN_OUT, SPRING_CONE,
    SPRING_FITTED, SPRING_INNER, SPRING_MODULUS, SPRING_OUTER, SPRING_PEAK, SPRING_PEAK_AT, SPRING_THICKNESS, SPRING_VALLEY,
    SPRING_VALLEY_AT, TRAVEL_FROM_LIFT, TRAVEL_NEEDED, TRAVEL_NEEDED_WORN, USUAL_FRICTION, joined,
};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{GPA, MM, N, N_PER_MM, ONE};
use crate::quantity::{Force, Length, Ratio, Value, ratio};
use crate::report::{Report, Unknown};
use crate::spec::{Id, Single, Source};

/// Poisson's ratio of steel (a number).
const POISSON: f64 = 0.3;
const ALMEN_LASZLO: Source = Source::FromMemory("Almen & László, Trans. ASME 58 (1936), RP-58-10; DIN EN 16984");

static ORGANIC: Line = Line { equation: "μ = 0.27", terms: &[], unit: ONE, source: Source::CommonPractice };
static SINTERED: Line = Line { equation: "μ = 0.35", terms: &[], unit: ONE, source: Source::CommonPractice };
static WORN: Line = Line { equation: "F_w = F · k", terms: &[("F", N), ("k", ONE)], unit: N, source: Source::Definition };
static GIVEN_LOAD: Line = Line { equation: "F = F_c", terms: &[("F_c", N)], unit: N, source: Source::Definition };
static GIVEN_TRAVEL: Line = Line { equation: "x = x_c", terms: &[("x_c", MM)], unit: MM, source: Source::Definition };
static GIVEN_RATIO: Line = Line { equation: "λ = λ_c", terms: &[("λ_c", ONE)], unit: ONE, source: Source::Definition };
static CARRIED: Line = Line {
    equation: "c = (De − Di) / (D₁ − D₂)",
    terms: &[("De", MM), ("Di", MM), ("D₁", MM), ("D₂", MM)],
    unit: ONE,
    source: Source::Definition,
};
static RATIO_OF_CIRCLES: Line =
    Line {
        equation: "λ = (D₂ − D₃) / (D₁ − D₂)", terms: &[("D₂", MM), ("D₃", MM), ("D₁", MM)], unit: ONE, source: Source::Definition
    };
static DEFLECTION_WORN: Line =
    Line { equation: "s = s₀ − w · c", terms: &[("s₀", MM), ("w", MM), ("c", ONE)], unit: MM, source: Source::Definition };
static SPRING_LOAD: Line = Line {
    equation: "F = c · 4 · E · t · s · ((h − s) · (h − s / 2) + t · t) / ((1 − ν · ν) · K₁ · De · De)",
    terms: &[("c", ONE), ("E", GPA), ("t", MM), ("s", MM), ("h", MM), ("ν", ONE), ("K₁", ONE), ("De", MM)],
    unit: N,
    source: ALMEN_LASZLO,
};
static FINGER_LOAD: Line = Line { equation: "P = F / λ", terms: &[("F", N), ("λ", ONE)], unit: N, source: Source::Definition };
static LIFT: Line = Line { equation: "u = d + a + r", terms: &[("d", MM), ("a", MM), ("r", MM)], unit: MM, source: Source::CommonPractice };
static TRAVEL: Line = Line {
    equation: "x = λ · u + P / k",
    terms: &[("λ", ONE), ("u", MM), ("P", N), ("k", N_PER_MM)],
    unit: MM,
    source: Source::CommonPractice,
};
static SHIFT: Line = Line { equation: "y = λ · w", terms: &[("λ", ONE), ("w", MM)], unit: MM, source: Source::Definition };
static PEAK_AT: Line =
    Line { equation: "s = h − √((h² − 2 · t²) / 3)", terms: &[("h", MM), ("t", MM)], unit: MM, source: ALMEN_LASZLO };
static VALLEY_AT: Line =
    Line { equation: "s = h + √((h² − 2 · t²) / 3)", terms: &[("h", MM), ("t", MM)], unit: MM, source: ALMEN_LASZLO };

/// What values in force can be read from: a running step, or a finished report.
pub(super) trait Values {
    fn get<V: Value>(&mut self, handle: impl Single<V>) -> Result<V, Unknown>;
}

impl Values for Case<'_> {
    fn get<V: Value>(&mut self, handle: impl Single<V>) -> Result<V, Unknown> {
        self.of(handle)
    }
}

impl Values for &Report {
    fn get<V: Value>(&mut self, handle: impl Single<V>) -> Result<V, Unknown> {
        self.of(handle)
    }
}

/// What is given, and a one of each in place of what is not: for answers that do not use that.
pub(super) struct AsGiven<'a, 'b>(pub(super) &'a mut Case<'b>);

impl Values for AsGiven<'_, '_> {
    fn get<V: Value>(&mut self, handle: impl Single<V>) -> Result<V, Unknown> {
        Ok(self.0.of(handle).unwrap_or_else(|_| V::from_cell(1.0)))
    }
}

/// The plate as new, or as worn as it may get.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Age {
    New,
    Worn,
}

/// What the bearing meets on its way.
#[derive(Clone, Copy, Debug)]
pub(super) struct Release {
    /// Load over travel.
    pub(super) curve: LoadCurve,
    /// Travel that frees the clutch.
    pub(super) needed: Length,
}

/// What [`release`] reads.
pub(super) const RELEASE_READS: [Id; 20] = [
    COVER_FIGURES.id,
    BEARING_LOAD.id,
    BEARING_LOAD_HOLD.id,
    BEARING_LOAD_WHEN_WORN.id,
    BEARING_TRAVEL.id,
    CUSHION.id,
    CLEARANCE.id,
    RUN_OUT.id,
    FINGER_RATIO.id,
    FINGER_STIFFNESS.id,
    FACING_WEAR.id,
    SPRING_OUTER.id,
    SPRING_INNER.id,
    SPRING_THICKNESS.id,
    SPRING_CONE.id,
    SPRING_FITTED.id,
    SPRING_MODULUS.id,
    PLATE_CIRCLE.id,
    PIVOT_CIRCLE.id,
    FINGER_CIRCLE.id,
];

/// Peak and hold of a maker's figures at this age of the plate.
pub(super) fn given_loads(values: &mut impl Values, age: Age) -> (Result<Force, Unknown>, Result<Force, Unknown>) {
    let more = if age == Age::Worn { values.get(BEARING_LOAD_WHEN_WORN).map(Ratio::si) } else { Ok(1.0) };
    let mut load = |given| values.get(given).and_then(|load: Force| Ok(load * more?));
    match (load(BEARING_LOAD), load(BEARING_LOAD_HOLD)) {
        (Ok(peak), Ok(hold)) if hold > peak => {
            let why = Err(Unknown::NoSolution("Held down, the fingers push no harder than at their peak: give both loads."));
            (why, why)
        }
        loads => loads,
    }
}

/// The bearing's load and travel at this age of the plate.
pub(super) fn release(values: &mut impl Values, age: Age) -> Result<Release, Unknown> {
    let stiffness = values.get(FINGER_STIFFNESS)?;
    match values.get(COVER_FIGURES)? {
        CoverFigures::Measured => {
            let (peak, hold) = given_loads(values, age);
            let (peak, hold) = (peak?, hold?);
            let (ratio, needed) = (values.get(FINGER_RATIO)?, values.get(BEARING_TRAVEL)?);
            let at_peak = travel_to_peak(values.get(CUSHION)?, ratio.si(), peak, stiffness);
            let curve = LoadCurve::from_figures(Point { travel: at_peak, load: peak }, Point { travel: needed, load: hold });
            Ok(Release { curve: curve.map_err(Unknown::NoSolution)?, needed })
        }
        CoverFigures::Spring => {
            let (cover, fitted, lift) = (spring_cover(values)?, spring_fitted(values, age)?, lift(values)?);
            let plate = Plate { cushion: lift.cushion, finger_stiffness: stiffness };
            let curve = cover.bearing_load(fitted, lift.total(), plate).map_err(Unknown::NoSolution)?;
            let freed = cover.bearing_load_freed(fitted, lift.total());
            Ok(Release { curve, needed: bearing_travel(lift, cover.finger_ratio(), freed, stiffness) })
        }
    }
}

/// Finger ratio as given, or of the spring's circles.
pub(super) fn finger_ratio(values: &mut impl Values) -> Result<Ratio, Unknown> {
    match values.get(COVER_FIGURES)? {
        CoverFigures::Measured => values.get(FINGER_RATIO),
        CoverFigures::Spring => Ok(ratio(spring_cover(values)?.finger_ratio())),
    }
}

/// The cover made of the spring's dimensions.
pub(super) fn spring_cover(values: &mut impl Values) -> Result<Cover, Unknown> {
    let ring = Ring {
        outer: values.get(SPRING_OUTER)?,
        inner: values.get(SPRING_INNER)?,
        thickness: values.get(SPRING_THICKNESS)?,
        cone: values.get(SPRING_CONE)?,
        modulus: values.get(SPRING_MODULUS)?,
        poisson: POISSON,
    };
    let circles = Circles { plate: values.get(PLATE_CIRCLE)?, pivot: values.get(PIVOT_CIRCLE)?, fingers: values.get(FINGER_CIRCLE)? };
    Diaphragm::new(ring).and_then(|spring| Cover::new(spring, circles)).map_err(Unknown::NoSolution)
}

/// How far the spring is deflected, bolted up.
pub(super) fn spring_fitted(values: &mut impl Values, age: Age) -> Result<Length, Unknown> {
    let fitted = values.get(SPRING_FITTED)?;
    Ok(match age {
        Age::New => fitted,
        Age::Worn => spring_cover(values)?.worn(fitted, values.get(FACING_WEAR)?),
    })
}

fn lift(values: &mut impl Values) -> Result<Lift, Unknown> {
    Ok(Lift { cushion: values.get(CUSHION)?, clearance: values.get(CLEARANCE)?, run_out: values.get(RUN_OUT)? })
}

pub(super) const FRICTION_STEP: Step = Step {
    name: "friction usual for the facings",
    reads: &[LINING.id],
    writes: &[USUAL_FRICTION.id],
    run: |case| {
        case.answer(USUAL_FRICTION, |case| {
            let (line, friction) = match case.of(LINING)? {
                Lining::Organic => (&ORGANIC, 0.27),
                Lining::Sintered => (&SINTERED, 0.35),
            };
            Ok(case.say(line, &[], ratio(friction)))
        });
    },
};

pub(super) const COVER_STEP: Step = Step {
    name: "loads and travel of the cover",
    reads: &joined::<20, 2, 22>(RELEASE_READS, [CLAMP_LOAD.id, CLAMP_WHEN_WORN.id]),
    writes: &[
        CLAMP_NEW.id,
        CLAMP_WORN.id,
        LOAD_PEAK.id,
        LOAD_HOLD.id,
        LOAD_PEAK_WORN.id,
        LOAD_HOLD_WORN.id,
        FINGER_RATIO_IN_FORCE.id,
        PLATE_LIFT.id,
        TRAVEL_FROM_LIFT.id,
        TRAVEL_NEEDED.id,
        TRAVEL_NEEDED_WORN.id,
        FINGER_SHIFT.id,
    ],
    run: |case| {
        case.answer(CLAMP_NEW, |case| clamp(case, Age::New));
        case.answer(CLAMP_WORN, |case| clamp(case, Age::Worn));
        let (new, worn) = (release(case, Age::New), release(case, Age::Worn));
        let (new, worn) = (new.as_ref().map_err(|&why| why), worn.as_ref().map_err(|&why| why));
        for (age, release, peaks, holds) in [(Age::New, new, LOAD_PEAK, LOAD_HOLD), (Age::Worn, worn, LOAD_PEAK_WORN, LOAD_HOLD_WORN)] {
            case.answer(peaks, |case| {
                let load = peak(case, age, release)?;
                said_bearing(case, load)
            });
            case.answer(holds, |case| {
                let load = hold(case, age, release)?;
                said_bearing(case, load)
            });
        }
        case.answer(FINGER_RATIO_IN_FORCE, |case| {
            let found = finger_ratio(case)?;
            Ok(match case.of(COVER_FIGURES)? {
                CoverFigures::Measured => case.say(&GIVEN_RATIO, &[found.si()], found),
                CoverFigures::Spring => {
                    let circles = [case.of(PIVOT_CIRCLE)?, case.of(FINGER_CIRCLE)?, case.of(PLATE_CIRCLE)?].map(Length::si);
                    case.say(&RATIO_OF_CIRCLES, &circles, found)
                }
            })
        });
        case.answer(PLATE_LIFT, |case| said_lift(case));
        case.answer(TRAVEL_FROM_LIFT, |case| {
            let peak = match case.of(COVER_FIGURES)? {
                CoverFigures::Measured => case.of(BEARING_LOAD)?,
                CoverFigures::Spring => new.map(|new| new.curve.peak_until(new.needed).load)?,
            };
            said_travel(case, peak)
        });
        case.answer(TRAVEL_NEEDED, |case| said_needed(case, new));
        case.answer(TRAVEL_NEEDED_WORN, |case| said_needed(case, worn));
        case.answer(FINGER_SHIFT, |case| {
            let (ratio, wear) = (finger_ratio(case)?, case.of(FACING_WEAR)?);
            Ok(case.say(&SHIFT, &[ratio.si(), wear.si()], finger_shift(wear, ratio.si())))
        });
    },
};

fn clamp(case: &mut Case<'_>, age: Age) -> Result<Force, Unknown> {
    match (case.of(COVER_FIGURES)?, age) {
        (CoverFigures::Measured, Age::New) => {
            let given = case.of(CLAMP_LOAD)?;
            Ok(case.say(&GIVEN_LOAD, &[given.si()], given))
        }
        (CoverFigures::Measured, Age::Worn) => {
            let (given, share) = (case.of(CLAMP_LOAD)?, case.of(CLAMP_WHEN_WORN)?);
            Ok(case.say(&WORN, &[given.si(), share.si()], given * share.si()))
        }
        (CoverFigures::Spring, age) => {
            let (cover, fitted) = (spring_cover(case)?, spring_fitted(case, age)?);
            said_carried(case, &cover)?;
            if age == Age::Worn {
                let (new, wear) = (case.of(SPRING_FITTED)?, case.of(FACING_WEAR)?);
                case.say(&DEFLECTION_WORN, &[new.si(), wear.si(), cover.carried()], fitted);
            }
            let load = said_clamp(case, &cover, fitted);
            if load > Force::ZERO { Ok(load) } else { Err(Unknown::NoSolution("Fitted like this the spring does not press on the plate.")) }
        }
    }
}

fn said_carried(case: &mut Case<'_>, cover: &Cover) -> Result<(), Unknown> {
    let (plate, pivot) = (case.of(PLATE_CIRCLE)?, case.of(PIVOT_CIRCLE)?);
    let ring = cover.spring().ring();
    case.say(&CARRIED, &[ring.outer.si(), ring.inner.si(), plate.si(), pivot.si()], ratio(cover.carried()));
    Ok(())
}

fn said_clamp(case: &mut Case<'_>, cover: &Cover, deflection: Length) -> Force {
    let ring = cover.spring().ring();
    let numbers = [
        cover.carried(),
        ring.modulus.si(),
        ring.thickness.si(),
        deflection.si(),
        ring.cone.si(),
        ring.poisson,
        dish_factor(ring.outer / ring.inner),
        ring.outer.si(),
    ];
    case.say(&SPRING_LOAD, &numbers, cover.clamp(deflection))
}

/// Highest load until the clutch is free: of a maker's figures nothing but that load is asked for.
pub(super) fn peak(case: &mut Case<'_>, age: Age, release: Result<&Release, Unknown>) -> Result<Force, Unknown> {
    match (release, case.of(COVER_FIGURES)?) {
        (Ok(release), _) => Ok(release.curve.peak_until(release.needed).load),
        (_, CoverFigures::Measured) => given_loads(case, age).0,
        (Err(why), CoverFigures::Spring) => Err(why),
    }
}

/// Load with the clutch free.
fn hold(case: &mut Case<'_>, age: Age, release: Result<&Release, Unknown>) -> Result<Force, Unknown> {
    match (release, case.of(COVER_FIGURES)?) {
        (Ok(release), _) => Ok(release.curve.load_at(release.needed)),
        (_, CoverFigures::Measured) => given_loads(case, age).1,
        (Err(why), CoverFigures::Spring) => Err(why),
    }
}

/// Travel that frees the clutch.
pub(super) fn needed(case: &mut Case<'_>, release: Result<&Release, Unknown>) -> Result<Length, Unknown> {
    match case.of(COVER_FIGURES)? {
        CoverFigures::Measured => case.of(BEARING_TRAVEL),
        CoverFigures::Spring => release.map(|release| release.needed),
    }
}

fn said_bearing(case: &mut Case<'_>, load: Force) -> Result<Force, Unknown> {
    match case.of(COVER_FIGURES)? {
        CoverFigures::Measured => Ok(case.say(&GIVEN_LOAD, &[load.si()], load)),
        CoverFigures::Spring => {
            let ratio = finger_ratio(case)?;
            Ok(case.say(&FINGER_LOAD, &[(load * ratio.si()).si(), ratio.si()], load))
        }
    }
}

fn said_lift(case: &mut Case<'_>) -> Result<Length, Unknown> {
    let lift = lift(case)?;
    Ok(case.say(&LIFT, &[lift.cushion.si(), lift.clearance.si(), lift.run_out.si()], lift.total()))
}

fn said_travel(case: &mut Case<'_>, load: Force) -> Result<Length, Unknown> {
    let total = said_lift(case)?;
    let (lift, ratio, stiffness) = (lift(case)?, finger_ratio(case)?, case.of(FINGER_STIFFNESS)?);
    let travel = bearing_travel(lift, ratio.si(), load, stiffness);
    Ok(case.say(&TRAVEL, &[ratio.si(), total.si(), load.si(), stiffness.si()], travel))
}

fn said_needed(case: &mut Case<'_>, release: Result<&Release, Unknown>) -> Result<Length, Unknown> {
    match case.of(COVER_FIGURES)? {
        CoverFigures::Measured => {
            let given = case.of(BEARING_TRAVEL)?;
            Ok(case.say(&GIVEN_TRAVEL, &[given.si()], given))
        }
        CoverFigures::Spring => {
            let release = release?;
            said_travel(case, release.curve.load_at(release.needed))
        }
    }
}

pub(super) const SPRING_STEP: Step = Step {
    name: "turns of the diaphragm spring",
    reads: &[
        COVER_FIGURES.id,
        SPRING_OUTER.id,
        SPRING_INNER.id,
        SPRING_THICKNESS.id,
        SPRING_CONE.id,
        SPRING_MODULUS.id,
        PLATE_CIRCLE.id,
        PIVOT_CIRCLE.id,
        FINGER_CIRCLE.id,
    ],
    writes: &[SPRING_PEAK_AT.id, SPRING_PEAK.id, SPRING_VALLEY_AT.id, SPRING_VALLEY.id],
    run: |case| {
        let turns = turns(case);
        case.answer(SPRING_PEAK_AT, |case| {
            let (cover, Turns { peak, .. }) = turns?;
            let ring = cover.spring().ring();
            Ok(case.say(&PEAK_AT, &[ring.cone.si(), ring.thickness.si()], peak))
        });
        case.answer(SPRING_PEAK, |case| {
            let (cover, Turns { peak, .. }) = turns?;
            Ok(said_clamp(case, &cover, peak))
        });
        case.answer(SPRING_VALLEY_AT, |case| {
            let (cover, Turns { valley, .. }) = turns?;
            let ring = cover.spring().ring();
            Ok(case.say(&VALLEY_AT, &[ring.cone.si(), ring.thickness.si()], valley))
        });
        case.answer(SPRING_VALLEY, |case| {
            let (cover, Turns { valley, .. }) = turns?;
            Ok(said_clamp(case, &cover, valley))
        });
    },
};

fn turns(case: &mut Case<'_>) -> Result<(Cover, Turns), Unknown> {
    match case.of(COVER_FIGURES)? {
        CoverFigures::Measured => Err(Unknown::NoSolution("The cover's loads are given; the spring's dimensions are not used.")),
        CoverFigures::Spring => {
            let cover = spring_cover(case)?;
            let turns = cover.spring().turns();
            Ok((cover, turns.ok_or(Unknown::NoSolution("This spring only ever rises: its cone is too low for a dip."))?))
        }
    }
}
