//! From the foot to the bearing: the figures of the linkage that is fitted.

use super::asks::{Asks, Load, fork_ratio, slave};
use super::cover::{Age, AsGiven, RELEASE_READS, Release, Values, needed, peak, release};
use super::hydraulics::{HOSE_TEST_PRESSURE, Parts, State, System, equivalent_bore, hydraulic_ratio};
use super::stroke::Push;
use super::{
    BEARING_AT_STOP, BEARING_GAP, BEARING_WORK, BULK_MODULUS, CONCENTRIC_AREA, EQUIVALENT_BORE, FORK_EFFICIENCY, FORK_RATIO, FREE_PLAY,
    GOES_FLUID, GOES_FREE_PLAY, GOES_GAP, GOES_HOSE, GOES_PORT, GOES_RELEASE, HOSE_GROWTH, HOSE_KIND, HOSE_LENGTH, HYDRAULIC_RATIO,
    HoseKind, LINE_PRESSURE, MASTER_BORE, OVERALL_RATIO, PEDAL_AT_RELEASE, PEDAL_EFFICIENCY, PEDAL_FORCE, PEDAL_FORCE_AT, PEDAL_FORCE_HOLD,
    PEDAL_FORCE_WORN, PEDAL_LEFT, PEDAL_LEFT_WORN, PEDAL_RATIO, PEDAL_SPRING_AT_REST, PEDAL_SPRING_AT_STOP, PEDAL_TRAVEL, PEDAL_WORK,
    PORT_CLOSING, RELEASE_BY, ReleaseBy, SEAL_EFFICIENCY, SEAL_STICK, SLAVE_AREA, SLAVE_BORE, SLAVE_SPRING, SLAVE_TRAVEL, THRUST, TRAPPED,
    USUAL_HOSE_GROWTH, joined,
};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{BORE, CM3, CM3_PER_M, GPA, J, KPA, M, MM, MM2, MPA, N, ONE};
use crate::quantity::{Area, Force, Length, Pressure, circle, cubic_centimetres_per_metre, ratio};
use crate::report::Unknown;
use crate::spec::{Id, Source};

const PASCAL: Source = Source::Definition;

static RUBBER: Line = Line {
    equation: "q = 2.17",
    terms: &[],
    unit: CM3_PER_M,
    source: Source::FromMemory("FMVSS 106, S5.3.2: at most 0.66 cm³ per foot for hose of 3 mm bore or less"),
};
static BRAIDED: Line = Line { equation: "q = 0.3", terms: &[], unit: CM3_PER_M, source: Source::Judgement };
static CIRCLE: Line = Line { equation: "A = π · d · d / 4", terms: &[("d", BORE)], unit: MM2, source: Source::Definition };
static GIVEN_AREA: Line = Line { equation: "A = A_c", terms: &[("A_c", MM2)], unit: MM2, source: Source::Definition };
static AS_BORE: Line = Line { equation: "d = √(4 · A / π)", terms: &[("A", MM2)], unit: BORE, source: Source::Definition };
static RATIO: Line = Line { equation: "i = A_s / A_m", terms: &[("A_s", MM2), ("A_m", MM2)], unit: ONE, source: PASCAL };
static OVERALL: Line = Line { equation: "i_t = R · i · k", terms: &[("R", ONE), ("i", ONE), ("k", ONE)], unit: ONE, source: PASCAL };
static PRESSURE: Line = Line {
    equation: "p = (L / (k · η_f) + F_r) / (A_s · η_s) + p₀",
    terms: &[("L", N), ("k", ONE), ("η_f", ONE), ("F_r", N), ("A_s", MM2), ("η_s", ONE), ("p₀", KPA)],
    unit: MPA,
    source: PASCAL,
};
static PAD_FORCE: Line = Line {
    equation: "F = p · A_m / (R · η_p) + F_p",
    terms: &[("p", MPA), ("A_m", MM2), ("R", ONE), ("η_p", ONE), ("F_p", N)],
    unit: N,
    source: PASCAL,
};
static TAKEN: Line = Line {
    equation: "V = p · (q · l / p_t + V_f / K)",
    terms: &[("p", MPA), ("q", CM3_PER_M), ("l", M), ("p_t", MPA), ("V_f", CM3), ("K", GPA)],
    unit: CM3,
    source: Source::Definition,
};
static PAD_TRAVEL: Line = Line {
    equation: "x = f + R · (s + (A_s · k · (g + b) + V) / A_m)",
    terms: &[("f", MM), ("R", ONE), ("s", MM), ("A_s", MM2), ("k", ONE), ("g", MM), ("b", MM), ("V", CM3), ("A_m", MM2)],
    unit: MM,
    source: PASCAL,
};
static LEFT: Line = Line { equation: "l = X − x", terms: &[("X", MM), ("x", MM)], unit: MM, source: Source::Definition };
static FREE: Line = Line { equation: "x = f", terms: &[("f", MM)], unit: MM, source: Source::Definition };
static PORT: Line = Line { equation: "x = R · s", terms: &[("R", ONE), ("s", MM)], unit: MM, source: Source::Definition };
static GAP: Line = Line {
    equation: "x = R · k · g · A_s / A_m",
    terms: &[("R", ONE), ("k", ONE), ("g", MM), ("A_s", MM2), ("A_m", MM2)],
    unit: MM,
    source: PASCAL,
};
static INTO_HOSE: Line = Line {
    equation: "x = R · q · l · p / (p_t · A_m)",
    terms: &[("R", ONE), ("q", CM3_PER_M), ("l", M), ("p", MPA), ("p_t", MPA), ("A_m", MM2)],
    unit: MM,
    source: PASCAL,
};
static INTO_FLUID: Line = Line {
    equation: "x = R · V_f · p / (K · A_m)",
    terms: &[("R", ONE), ("V_f", CM3), ("p", MPA), ("K", GPA), ("A_m", MM2)],
    unit: MM,
    source: PASCAL,
};
static INTO_RELEASE: Line = Line {
    equation: "x = R · k · b · A_s / A_m",
    terms: &[("R", ONE), ("k", ONE), ("b", MM), ("A_s", MM2), ("A_m", MM2)],
    unit: MM,
    source: PASCAL,
};
static SLAVE: Line =
    Line { equation: "x = k · (g + b)", terms: &[("k", ONE), ("g", MM), ("b", MM)], unit: MM, source: Source::Definition };
static AT_STOP: Line = Line {
    equation: "b = (A_m · ((X − f) / R − s) − V) / (A_s · k) − g",
    terms: &[("A_m", MM2), ("X", MM), ("f", MM), ("R", ONE), ("s", MM), ("V", CM3), ("A_s", MM2), ("k", ONE), ("g", MM)],
    unit: MM,
    source: PASCAL,
};
static HIGHER: Line = Line { equation: "T = max(P, P_w)", terms: &[("P", N), ("P_w", N)], unit: N, source: Source::Definition };
static WORK: Line = Line { equation: "W = ∫ F dx", terms: &[], unit: J, source: Source::Definition };

pub(super) const HOSE_STEP: Step = Step {
    name: "growth usual for the hose",
    reads: &[HOSE_KIND.id],
    writes: &[USUAL_HOSE_GROWTH.id],
    run: |case| {
        case.answer(USUAL_HOSE_GROWTH, |case| {
            let (line, growth) = match case.of(HOSE_KIND)? {
                HoseKind::Rubber => (&RUBBER, 2.17),
                HoseKind::Braided => (&BRAIDED, 0.3),
            };
            Ok(case.say(line, &[], cubic_centimetres_per_metre(growth)))
        });
    },
};

/// What [`system`] reads.
const SYSTEM_READS: [Id; 21] = [
    RELEASE_BY.id,
    SLAVE_BORE.id,
    CONCENTRIC_AREA.id,
    FORK_RATIO.id,
    FORK_EFFICIENCY.id,
    BEARING_GAP.id,
    SLAVE_SPRING.id,
    MASTER_BORE.id,
    PEDAL_RATIO.id,
    PEDAL_TRAVEL.id,
    FREE_PLAY.id,
    PORT_CLOSING.id,
    PEDAL_EFFICIENCY.id,
    SEAL_EFFICIENCY.id,
    SEAL_STICK.id,
    PEDAL_SPRING_AT_REST.id,
    PEDAL_SPRING_AT_STOP.id,
    HOSE_LENGTH.id,
    HOSE_GROWTH.id,
    TRAPPED.id,
    BULK_MODULUS.id,
];

/// The linkage as it is fitted.
pub(super) fn system(values: &mut impl Values) -> Result<System, Unknown> {
    let (slave, fork_ratio, fork_efficiency) = match values.get(RELEASE_BY)? {
        ReleaseBy::Fork => (circle(values.get(SLAVE_BORE)?), values.get(FORK_RATIO)?.si(), values.get(FORK_EFFICIENCY)?.si()),
        ReleaseBy::Concentric => (values.get(CONCENTRIC_AREA)?, 1.0, 1.0),
    };
    System::new(Parts {
        pedal_ratio: values.get(PEDAL_RATIO)?.si(),
        pedal_travel: values.get(PEDAL_TRAVEL)?,
        free_play: values.get(FREE_PLAY)?,
        port_closing: values.get(PORT_CLOSING)?,
        master: circle(values.get(MASTER_BORE)?),
        slave,
        fork_ratio,
        bearing_gap: values.get(BEARING_GAP)?,
        hose_length: values.get(HOSE_LENGTH)?,
        hose_growth: values.get(HOSE_GROWTH)?,
        trapped: values.get(TRAPPED)?,
        bulk_modulus: values.get(BULK_MODULUS)?,
        pedal_efficiency: values.get(PEDAL_EFFICIENCY)?.si(),
        seal_efficiency: values.get(SEAL_EFFICIENCY)?.si(),
        fork_efficiency,
        seal_stick: values.get(SEAL_STICK)?,
        pedal_spring_at_rest: values.get(PEDAL_SPRING_AT_REST)?,
        pedal_spring_at_stop: values.get(PEDAL_SPRING_AT_STOP)?,
        slave_spring: values.get(SLAVE_SPRING)?,
    })
    .map_err(Unknown::NoSolution)
}

pub(super) const PEDAL_STEP: Step = Step {
    name: "pedal, cylinders and bearing",
    reads: &joined::<20, 21, 41>(RELEASE_READS, SYSTEM_READS),
    writes: &[
        SLAVE_AREA.id,
        EQUIVALENT_BORE.id,
        HYDRAULIC_RATIO.id,
        OVERALL_RATIO.id,
        PEDAL_FORCE.id,
        PEDAL_FORCE_AT.id,
        PEDAL_FORCE_HOLD.id,
        PEDAL_FORCE_WORN.id,
        PEDAL_AT_RELEASE.id,
        PEDAL_LEFT.id,
        PEDAL_LEFT_WORN.id,
        GOES_FREE_PLAY.id,
        GOES_PORT.id,
        GOES_GAP.id,
        GOES_HOSE.id,
        GOES_FLUID.id,
        GOES_RELEASE.id,
        SLAVE_TRAVEL.id,
        LINE_PRESSURE.id,
        BEARING_AT_STOP.id,
        THRUST.id,
        PEDAL_WORK.id,
        BEARING_WORK.id,
    ],
    run: |case| {
        let whole = system(case);
        let fitted = if whole.is_ok() { whole } else { system(&mut AsGiven(case)) };
        let (new, worn) = (pushed(case, fitted, Age::New), pushed(case, fitted, Age::Worn));
        // Errors are small, what is known is not: passed on by reference.
        let (new, worn) = (new.as_ref().map_err(|&why| why), worn.as_ref().map_err(|&why| why));
        let asks = Asks { linkage: whole.is_ok(), covers: [new, worn].map(|loaded| loaded.and_then(|of| of.given)) };
        ratios(case);
        forces(case, asks, new, worn);
        travels(case, asks, new, worn);
        budget(case, asks, new);
        case.answer(THRUST, |case| {
            let (new, worn) = (peak(case, Age::New, released(new))?, peak(case, Age::Worn, released(worn))?);
            Ok(case.say(&HIGHER, &[new.si(), worn.si()], new.max(worn)))
        });
        let work = new.map(|of| of.system.work(&of.release.curve, of.release.needed));
        case.answer(PEDAL_WORK, |case| {
            asks.path(case)?;
            asks.foot(case)?;
            asks.cover(Age::New)?;
            Ok(case.say(&WORK, &[], work?.foot))
        });
        case.answer(BEARING_WORK, |case| {
            asks.cover(Age::New)?;
            Ok(case.say(&WORK, &[], work?.fingers))
        });
    },
};

struct Pushed {
    system: System,
    release: Release,
    push: Push,
    /// Of what load and travel hang on, the first that was not.
    given: Result<(), Unknown>,
}

type Fitted = Result<System, Unknown>;
type Loaded<'a> = Result<&'a Pushed, Unknown>;

fn pushed(case: &mut Case<'_>, system: Fitted, age: Age) -> Result<Pushed, Unknown> {
    let (system, found) = (system?, release(case, age));
    let given = found.as_ref().map(|_| ()).map_err(|&why| why);
    // What cannot be is said; what is not given is asked for by the answers that use it.
    let release = found.or_else(|why| release(&mut AsGiven(case), age).map_err(|_| why))?;
    Ok(Pushed { push: system.push(&release.curve, release.needed), system, release, given })
}

fn released(loaded: Loaded<'_>) -> Result<&Release, Unknown> {
    loaded.and_then(|of| of.given.map(|()| &of.release))
}

fn ratios(case: &mut Case<'_>) {
    case.answer(SLAVE_AREA, |case| {
        let slave = slave(case)?;
        said_area(case, slave)
    });
    case.answer(EQUIVALENT_BORE, |case| {
        let slave = slave(case)?;
        Ok(case.say(&AS_BORE, &[slave.si()], equivalent_bore(slave)))
    });
    case.answer(HYDRAULIC_RATIO, |case| {
        let (master, slave) = (circle(case.of(MASTER_BORE)?), slave(case)?);
        said_area(case, slave)?;
        Ok(case.say(&RATIO, &[slave.si(), master.si()], hydraulic_ratio(master, slave)))
    });
    case.answer(OVERALL_RATIO, |case| {
        let (master, slave) = (circle(case.of(MASTER_BORE)?), slave(case)?);
        let (pedal_ratio, fork_ratio) = (case.of(PEDAL_RATIO)?.si(), fork_ratio(case)?);
        let hydraulic = case.say(&RATIO, &[slave.si(), master.si()], hydraulic_ratio(master, slave));
        let overall = ratio(pedal_ratio * hydraulic.si() * fork_ratio);
        Ok(case.say(&OVERALL, &[pedal_ratio, hydraulic.si(), fork_ratio], overall))
    });
}

fn said_area(case: &mut Case<'_>, slave: Area) -> Result<Area, Unknown> {
    Ok(match case.of(RELEASE_BY)? {
        ReleaseBy::Fork => {
            let bore = case.of(SLAVE_BORE)?;
            case.say(&CIRCLE, &[bore.si()], slave)
        }
        ReleaseBy::Concentric => case.say(&GIVEN_AREA, &[slave.si()], slave),
    })
}

fn forces(case: &mut Case<'_>, asks: Asks, new: Loaded<'_>, worn: Loaded<'_>) {
    case.answer(PEDAL_FORCE, |case| {
        asks.force(case, Age::New, Load::Peak)?;
        said_force(case, &new?.system, &new?.push.heaviest)
    });
    case.answer(PEDAL_FORCE_AT, |case| {
        asks.path(case)?;
        asks.foot(case)?;
        asks.cover(Age::New)?;
        said_travel(case, &new?.system, &new?.push.heaviest)
    });
    case.answer(PEDAL_FORCE_HOLD, |case| {
        asks.force(case, Age::New, Load::Hold)?;
        said_force(case, &new?.system, &new?.push.release)
    });
    case.answer(PEDAL_FORCE_WORN, |case| {
        asks.force(case, Age::Worn, Load::Peak)?;
        said_force(case, &worn?.system, &worn?.push.heaviest)
    });
    case.answer(LINE_PRESSURE, |case| {
        asks.pressure(case)?;
        asks.load(case, Age::New, Load::Peak)?;
        asks.load(case, Age::Worn, Load::Peak)?;
        let (new, worn) = (new?, worn?);
        let of = if worn.push.hardest.pressure > new.push.hardest.pressure { worn } else { new };
        Ok(said_pressure(case, &of.system, &of.push.hardest))
    });
}

fn said_pressure(case: &mut Case<'_>, system: &System, state: &State) -> Pressure {
    let Parts { fork_ratio, fork_efficiency, slave_spring, slave, seal_efficiency, seal_stick, .. } = *system.parts();
    let numbers = [state.load.si(), fork_ratio, fork_efficiency, slave_spring.si(), slave.si(), seal_efficiency, seal_stick.si()];
    case.say(&PRESSURE, &numbers, state.pressure)
}

fn said_force(case: &mut Case<'_>, system: &System, state: &State) -> Result<Force, Unknown> {
    let Parts { master, pedal_ratio, pedal_efficiency, .. } = *system.parts();
    let pressure = said_pressure(case, system, state);
    let spring = system.pedal_spring(state.pedal);
    Ok(case.say(&PAD_FORCE, &[pressure.si(), master.si(), pedal_ratio, pedal_efficiency, spring.si()], state.force))
}

fn said_taken(case: &mut Case<'_>, system: &System, pressure: Pressure) -> f64 {
    let Parts { hose_growth, hose_length, trapped, bulk_modulus, .. } = *system.parts();
    let numbers = [pressure.si(), hose_growth.si(), hose_length.si(), HOSE_TEST_PRESSURE.si(), trapped.si(), bulk_modulus.si()];
    case.say(&TAKEN, &numbers, system.given(pressure)).si()
}

fn said_travel(case: &mut Case<'_>, system: &System, state: &State) -> Result<Length, Unknown> {
    let Parts { free_play, pedal_ratio, port_closing, slave, fork_ratio, bearing_gap, master, .. } = *system.parts();
    let pressure = said_pressure(case, system, state);
    let taken = said_taken(case, system, pressure);
    let numbers =
        [free_play.si(), pedal_ratio, port_closing.si(), slave.si(), fork_ratio, bearing_gap.si(), state.bearing.si(), taken, master.si()];
    Ok(case.say(&PAD_TRAVEL, &numbers, state.pedal))
}

fn travels(case: &mut Case<'_>, asks: Asks, new: Loaded<'_>, worn: Loaded<'_>) {
    case.answer(PEDAL_AT_RELEASE, |case| {
        asks.path(case)?;
        asks.cover(Age::New)?;
        said_travel(case, &new?.system, &new?.push.furthest)
    });
    for (output, age, loaded) in [(PEDAL_LEFT, Age::New, new), (PEDAL_LEFT_WORN, Age::Worn, worn)] {
        case.answer(output, |case| {
            asks.path(case)?;
            asks.cover(age)?;
            let (whole, used) = (case.of(PEDAL_TRAVEL)?, said_travel(case, &loaded?.system, &loaded?.push.furthest)?);
            Ok(case.say(&LEFT, &[whole.si(), used.si()], whole - used))
        });
    }
    case.answer(SLAVE_TRAVEL, |case| {
        let (fork_ratio, bearing_gap) = (fork_ratio(case)?, case.of(BEARING_GAP)?);
        let needed = needed(case, released(new))?;
        Ok(case.say(&SLAVE, &[fork_ratio, bearing_gap.si(), needed.si()], (bearing_gap + needed) * fork_ratio))
    });
    case.answer(BEARING_AT_STOP, |case| {
        asks.path(case)?;
        asks.cover(Age::New)?;
        case.of(PEDAL_TRAVEL)?;
        let Pushed { system, release, push, .. } = new?;
        let Parts { master, pedal_travel, free_play, pedal_ratio, port_closing, slave, fork_ratio, bearing_gap, .. } = *system.parts();
        let reached = push.bearing_at_stop;
        let state = system.state(reached, release.curve.load_at(reached));
        let pressure = said_pressure(case, system, &state);
        let taken = said_taken(case, system, pressure);
        let numbers = [
            master.si(),
            pedal_travel.si(),
            free_play.si(),
            pedal_ratio,
            port_closing.si(),
            taken,
            slave.si(),
            fork_ratio,
            bearing_gap.si(),
        ];
        Ok(case.say(&AT_STOP, &numbers, reached))
    });
}

fn budget(case: &mut Case<'_>, asks: Asks, new: Loaded<'_>) {
    let shares = new.map(|of| of.system.budget(&of.push));
    let parts = new.map(|of| *of.system.parts());
    case.answer(GOES_FREE_PLAY, |case| {
        let free_play = case.of(FREE_PLAY)?;
        Ok(case.say(&FREE, &[free_play.si()], free_play))
    });
    case.answer(GOES_PORT, |case| {
        let (pedal_ratio, port_closing) = (case.of(PEDAL_RATIO)?.si(), case.of(PORT_CLOSING)?);
        Ok(case.say(&PORT, &[pedal_ratio, port_closing.si()], port_closing * pedal_ratio))
    });
    case.answer(GOES_GAP, |case| {
        let (master, slave) = (circle(case.of(MASTER_BORE)?), slave(case)?);
        let (pedal_ratio, fork_ratio, gap) = (case.of(PEDAL_RATIO)?.si(), fork_ratio(case)?, case.of(BEARING_GAP)?);
        let goes = Length::from_si((slave * gap).si() * fork_ratio * (pedal_ratio / master.si()));
        Ok(case.say(&GAP, &[pedal_ratio, fork_ratio, gap.si(), slave.si(), master.si()], goes))
    });
    case.answer(GOES_HOSE, |case| {
        asks.volume(case)?;
        asks.cover(Age::New)?;
        let Parts { pedal_ratio, hose_growth, hose_length, master, .. } = parts?;
        let pressure = said_pressure(case, &new?.system, &new?.push.furthest);
        let numbers = [pedal_ratio, hose_growth.si(), hose_length.si(), pressure.si(), HOSE_TEST_PRESSURE.si(), master.si()];
        Ok(case.say(&INTO_HOSE, &numbers, shares?.hose))
    });
    case.answer(GOES_FLUID, |case| {
        asks.volume(case)?;
        asks.cover(Age::New)?;
        let Parts { pedal_ratio, trapped, bulk_modulus, master, .. } = parts?;
        let pressure = said_pressure(case, &new?.system, &new?.push.furthest);
        let numbers = [pedal_ratio, trapped.si(), pressure.si(), bulk_modulus.si(), master.si()];
        Ok(case.say(&INTO_FLUID, &numbers, shares?.fluid))
    });
    case.answer(GOES_RELEASE, |case| {
        asks.volume(case)?;
        asks.cover(Age::New)?;
        let Parts { pedal_ratio, fork_ratio, slave, master, .. } = parts?;
        Ok(case.say(&INTO_RELEASE, &[pedal_ratio, fork_ratio, new?.push.furthest.bearing.si(), slave.si(), master.si()], shares?.release))
    });
}
