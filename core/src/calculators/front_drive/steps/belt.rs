//! Where does the belt run as drawn, which way does each pulley turn; how far does it wrap, what does it come close to?

use super::first;
use crate::calculators::front_drive::belt_path::{self, BeltPath, MOST_PULLEYS, Pulley};
use crate::calculators::front_drive::declared::{
    BELT_LINE, BELT_RUNS, BeltRuns, CORD_LENGTH, CRANK_TURNS, DRAWN_LENGTH, DUTY, Duty, GAP, LEAST_WRAP, LINE_DIFFERENCE, MISALIGNMENT,
    NEAR_WRAP, OFFSET, PULLEY_GAP, PULLEYS, SIDE, SPAN, SPAN_GAP, TURN_FITS, TURN_NEEDED, TURNING, TURNS, TurnFits, TurnNeeded, WRAP,
    WRAP_RESERVE, X, Y,
};
use crate::calculators::front_drive::tangent::{Point, Span};
use crate::calculators::front_drive::{clearance, designation, speeds};
use crate::plan::{Case, Line, Step};
use crate::quantity::unit::{DEG, MM};
use crate::quantity::{Angle, Length};
use crate::report::Unknown;
use crate::spec::Source;

static SPAN_LINE: Line =
    Line {
        equation: "L = √( D² − ( r_1 ∓ r_2 )² )", terms: &[("D", MM), ("r_1", MM), ("r_2", MM)], unit: MM, source: Source::Definition
    };
static WRAP_LINE: Line =
    Line { equation: "θ = ± ( α_2 − α_1 )", terms: &[("α_1", DEG), ("α_2", DEG)], unit: DEG, source: Source::Definition };
static LENGTH_LINE: Line =
    Line { equation: "L = spans + arcs", terms: &[("spans", MM), ("arcs", MM)], unit: MM, source: Source::Definition };
static EFFECTIVE_LINE: Line = Line {
    equation: "L_e = L − 2 · π · b",
    terms: &[("L", MM), ("b", MM)],
    unit: MM,
    source: Source::FromMemory("ISO 9981, effective length"),
};
static MISALIGNMENT_LINE: Line =
    Line { equation: "φ = atan( e / L )", terms: &[("e", MM), ("L", MM)], unit: DEG, source: Source::Definition };
static RESERVE_LINE: Line =
    Line { equation: "θ_near = θ_least + Δθ", terms: &[("θ_least", DEG), ("Δθ", DEG)], unit: DEG, source: Source::Definition };

/// The pulleys as the belt sees them, and how many.
pub(super) fn pulleys(case: &mut Case<'_>) -> Result<([Pulley; MOST_PULLEYS], usize), Unknown> {
    let mut all = [Pulley::default(); MOST_PULLEYS];
    let count = case.rows(PULLEYS).min(MOST_PULLEYS);
    for (row, pulley) in all.iter_mut().enumerate().take(count) {
        let centre = Point::new(case.cell(X, row)?, case.cell(Y, row)?);
        *pulley = Pulley { centre, diameter: case.cell(BELT_LINE, row)?, side: case.cell(SIDE, row)? };
    }
    Ok((all, count))
}

pub(in super::super) const PATH: Step = Step {
    name: "path of the belt",
    reads: &[
        DUTY.id,
        X.id,
        Y.id,
        SIDE.id,
        BELT_LINE.id,
        CRANK_TURNS.id,
        TURN_NEEDED.id,
        LEAST_WRAP.id,
        WRAP_RESERVE.id,
        LINE_DIFFERENCE.id,
    ],
    writes: &[TURNS.id, TURN_FITS.id, NEAR_WRAP.id, CORD_LENGTH.id, DRAWN_LENGTH.id, TURNING.id, BELT_RUNS.id],
    run: |case| {
        let path = closed(&pulleys(case));
        for row in 0..case.rows(PULLEYS) {
            one(case, row);
        }
        whole(case, &path);
    },
};

fn closed(given: &Given) -> Path {
    let (all, count) = known(given)?;
    belt_path::close(&all[..*count]).map_err(|why| Unknown::NoSolution(why.reason()))
}

/// Spans, wraps and gaps of these pulleys, and how far out of line the spans run.
pub(super) fn lies(case: &mut Case<'_>, given: &Given) {
    let path = closed(given);
    let gaps = gaps(given, &path);
    for row in 0..case.rows(PULLEYS) {
        at(case, row, given, &path);
        case.answer_row(GAP, row, |_| Ok(gaps?.at(row)));
    }
    // Pulleys in each other's way leave no path, but their gap is known, and says so.
    case.answer(PULLEY_GAP, |_| {
        let (all, count) = known(given)?;
        Ok(clearance::of_pulleys(&all[..*count]).ok_or(Unknown::NoSolution("A belt needs at least two pulleys."))?.distance)
    });
    case.answer(SPAN_GAP, |_| gaps?.least_span().ok_or(Unknown::NoSolution("With two pulleys no span passes a third.")));
}

pub(super) type Given = Result<([Pulley; MOST_PULLEYS], usize), Unknown>;
type Path = Result<BeltPath, Unknown>;

/// Least distances of every pulley: to another, and to a span that passes it, where one does.
#[derive(Clone, Copy)]
struct Gaps {
    count: usize,
    each: [(Length, Option<Length>); MOST_PULLEYS],
}

fn gaps(given: &Given, path: &Path) -> Result<Gaps, Unknown> {
    let ((all, count), path) = (known(given)?, known(path)?);
    let all = &all[..*count];
    let mut gaps = Gaps { count: *count, each: [(Length::ZERO, None); MOST_PULLEYS] };
    for (pulley, each) in gaps.each.iter_mut().enumerate().take(*count) {
        let beside = clearance::between(all, pulley).ok_or(Unknown::NoSolution("A belt needs at least two pulleys."))?;
        *each = (beside.distance, clearance::of_pulley(path, all, pulley).map(|gap| gap.distance));
    }
    Ok(gaps)
}

impl Gaps {
    fn at(&self, pulley: usize) -> Length {
        let (beside, span) = self.each[pulley];
        span.map_or(beside, |span| beside.min(span))
    }

    fn least_span(&self) -> Option<Length> {
        self.each[..self.count].iter().filter_map(|each| each.1).reduce(Length::min)
    }
}

fn known<T>(found: &Result<T, Unknown>) -> Result<&T, Unknown> {
    found.as_ref().map_err(|why| *why)
}

fn one(case: &mut Case<'_>, row: usize) {
    case.answer_row(TURNS, row, |case| {
        let crank = first(case, Duty::Crank)?;
        let (way, alike) = (case.of(CRANK_TURNS)?, case.cell(SIDE, row)? == case.cell(SIDE, crank)?);
        Ok(if alike { way } else { way.reversed() })
    });
    case.answer_row(TURN_FITS, row, |case| {
        let crank = first(case, Duty::Crank)?;
        let alike = case.cell(SIDE, row)? == case.cell(SIDE, crank)?;
        let right = match case.cell(TURN_NEEDED, row)? {
            TurnNeeded::Either if case.cell(DUTY, row)? == Duty::Pump => return Ok(TurnFits::Unchecked),
            TurnNeeded::Either => true,
            TurnNeeded::WithCrank => alike,
            TurnNeeded::AgainstCrank => !alike,
        };
        Ok(if right { TurnFits::Right } else { TurnFits::Wrong })
    });
    case.answer_row(NEAR_WRAP, row, |case| {
        let (least, reserve) = (case.cell(LEAST_WRAP, row)?, case.of(WRAP_RESERVE)?);
        Ok(case.say(&RESERVE_LINE, &[least.si(), reserve.si()], least + reserve))
    });
}

fn at(case: &mut Case<'_>, row: usize, given: &Given, path: &Path) {
    case.answer_row(WRAP, row, |case| {
        let path = known(path)?;
        let way = |span: &Span| libm::atan2(span.direction[1], span.direction[0]);
        let numbers = || [way(&path.spans()[path.before(row)]), way(&path.spans()[row])];
        Ok(case.say_with(&WRAP_LINE, numbers, path.arcs()[row].wrap))
    });
    case.answer_row(SPAN, row, |case| {
        let ((all, count), path) = (known(given)?, known(path)?);
        let (here, next) = (&all[row], &all[(row + 1) % count]);
        let numbers = || [here.centre.distance(next.centre).si(), here.diameter.si() / 2.0, next.diameter.si() / 2.0];
        Ok(case.say_with(&SPAN_LINE, numbers, path.spans()[row].length))
    });
    case.answer_row(MISALIGNMENT, row, |case| {
        let (path, count) = (known(path)?, case.rows(PULLEYS));
        let step = case.cell(OFFSET, (row + 1) % count)? - case.cell(OFFSET, row)?;
        let span = path.spans()[row].length;
        Ok(case.say(&MISALIGNMENT_LINE, &[step.si(), span.si()], speeds::misalignment(step, span)))
    });
}

fn whole(case: &mut Case<'_>, path: &Path) {
    case.answer(CORD_LENGTH, |case| cord_length(case, path));
    case.answer(DRAWN_LENGTH, |case| {
        let (cord, difference) = (cord_length(case, path)?, case.of(LINE_DIFFERENCE)?);
        let effective = designation::effective_length(cord, difference);
        Ok(case.say(&EFFECTIVE_LINE, &[cord.si(), difference.si()], effective))
    });
    case.answer(TURNING, |_| Ok(known(path)?.turning));
    case.answer(BELT_RUNS, |case| {
        let (way, crank) = (case.of(CRANK_TURNS)?, first(case, Duty::Crank)?);
        Ok(if known(path)?.arcs()[crank].hand == way { BeltRuns::AsListed } else { BeltRuns::Backwards })
    });
}

fn cord_length(case: &mut Case<'_>, path: &Path) -> Result<Length, Unknown> {
    let path = known(path)?;
    let spans = path.spans().iter().fold(Length::ZERO, |sum, span| sum + span.length);
    let arcs = path.arcs().iter().fold(Length::ZERO, |sum, arc| sum + arc.length);
    Ok(case.say(&LENGTH_LINE, &[spans.si(), arcs.si()], path.length))
}

/// Belt on a pulley of this belt-line diameter.
pub(super) fn arc(diameter: Length, wrap: Angle) -> Length {
    diameter * (wrap.in_radians() / 2.0)
}
