//! The bonnet line's answer in words.

use super::{
    BAND, CHANCE_ANY, CHANCE_MOST, CLEARANCE, FRONT_JOINT, JOINT_BENT, JOINT_MOST, JOINT_STRAIGHT, JOINT_WANTED, MOVE, OPENING_LEAST,
    POINT_NAME, POINTS, REAR_JOINT, ROAD, ROAD_BUMP, ROAD_BUMP_LEAST, ROAD_LEAST, ROOM_LEAST, SHAKE, SHAKE_MOST, SHAKE_WANTED, SWINGING,
    UNDER, UNDER_CHANCE, UNDER_CLEARANCE, UNDER_NAME, UNDER_WORST, WHIRL, WHIRL_MOST, WORST, WORST_LEAST, YOKES, Yokes,
};
use crate::build::Build;
use crate::quantity::unit::{DEG, MM, PERCENT, RAD_PER_S2};
use crate::quantity::{Angle, Length, millimetres};
use crate::report::{Report, Unknown};
use crate::sentence::{Piece, Sentence};
use crate::spec::{Id, Input, Output, OutputColumn, Place, TableId, Verdict};

type Words = Result<Vec<Piece>, Unknown>;

/// What the sentence speaks of: in this order, the first with the worst verdict.
#[derive(Clone, Copy, PartialEq)]
enum Lead {
    Above(usize),
    Road(Id),
    Under(usize),
    UnderChance(usize),
    Opening(usize),
    Joint(Id),
    Shake,
    Whirl,
    Chance,
}

/// `Clears by 25 mm at the oil filler cap, 5.4 mm at worst.`
pub(super) fn sentence(build: &Build, report: &Report) -> Sentence {
    let row = |table, columns: &[Id], value| tightest(build, report, table, columns, value);
    let (above, at) = row(POINTS, &[WORST.id, CLEARANCE.id], WORST);
    let mut leads = vec![(above, Lead::Above(at))];
    let single = |id: Id| report.verdict(build, id.into());
    leads.extend([ROAD_BUMP.id, ROAD.id].map(|id| (single(id), Lead::Road(id))));
    let (under, at) = row(UNDER, &[UNDER_WORST.id, UNDER_CLEARANCE.id], UNDER_WORST);
    leads.push((under, Lead::Under(at)));
    let (under, at) = row(UNDER, &[UNDER_CHANCE.id], UNDER_WORST);
    leads.push((under, Lead::UnderChance(at)));
    let (swinging, at) = row(POINTS, &[SWINGING.id], SWINGING);
    leads.push((swinging, Lead::Opening(at)));
    leads.extend([FRONT_JOINT.id, REAR_JOINT.id].map(|id| (single(id), Lead::Joint(id))));
    leads.extend([(single(SHAKE.id), Lead::Shake), (single(WHIRL.id), Lead::Whirl), (single(CHANCE_ANY.id), Lead::Chance)]);
    let (verdict, lead) =
        leads.into_iter().reduce(|worst, next| if next.0 > worst.0 { next } else { worst }).unwrap_or((above, Lead::Chance));
    let speaker = Speaker { build, report };
    let pieces = match verdict {
        Verdict::Unknown => speaker.unknown(lead),
        _ => speaker.known(verdict, lead),
    };
    Sentence { verdict, pieces: pieces.unwrap_or_else(|why| vec![format!("Unknown: {}", why.reason(report.layout())).into()]) }
}

/// The worst verdict of these columns in any row, and the row that has it with the least of `value`.
fn tightest(build: &Build, report: &Report, table: TableId, columns: &[Id], value: OutputColumn<Length>) -> (Verdict, usize) {
    let mut worst = (Verdict::Within, f64::INFINITY, 0);
    for (at, row) in build.rows(table).iter().enumerate() {
        let verdicts = columns.iter().map(|&id| report.verdict(build, Place { id, row: Some(*row) }));
        let verdict = verdicts.max().unwrap_or(Verdict::Within);
        let room = report.cell(value, at).map_or(f64::INFINITY, Length::si);
        if verdict > worst.0 || (verdict == worst.0 && room < worst.1) {
            worst = (verdict, room, at);
        }
    }
    (worst.0, worst.2)
}

struct Speaker<'a> {
    build: &'a Build,
    report: &'a Report,
}

fn short(length: Length) -> Piece {
    Piece::Figure { value: length.si(), unit: MM, digits: digits(length) }
}

fn digits(length: Length) -> u8 {
    if length.abs() >= millimetres(99.5) { 3 } else { 2 }
}

/// A length and its limit.
fn apart(length: Length, limit: Length) -> [Piece; 2] {
    Piece::apart([length.si(), limit.si()], MM, digits(length).max(digits(limit)))
}

impl Speaker<'_> {
    /// A row's name, or its number.
    fn name(&self, column: Id, table: TableId, at: usize) -> String {
        let row = self.build.rows(table).get(at).copied();
        let name = self.build.text(Place { id: column, row }).trim();
        if name.is_empty() { format!("point {}", at + 1) } else { name.to_owned() }
    }

    /// What the engine's height can do about it, when a height suits everything.
    fn remedy(&self) -> Vec<Piece> {
        match (self.report.of(MOVE), self.report.of(BAND)) {
            (Ok(up), _) if up < Length::ZERO => vec!["Drop the engine ".into(), short(-up), ".".into()],
            (Ok(up), _) if up > Length::ZERO => vec!["Raise the engine ".into(), short(up), ".".into()],
            (Err(_), Ok(band)) if band < Length::ZERO => vec!["No engine height suits all.".into()],
            _ => Vec::new(),
        }
    }

    fn known(&self, verdict: Verdict, lead: Lead) -> Words {
        let report = self.report;
        let mut pieces = match (verdict, lead) {
            (Verdict::Within, _) => {
                let (_, at) = tightest(self.build, report, POINTS, &[], WORST);
                let point = self.name(POINT_NAME.id, POINTS, at);
                let (clears, worst) = (short(report.cell(CLEARANCE, at)?), short(report.cell(WORST, at)?));
                vec!["Clears by ".into(), clears, format!(" at the {point}, ").into(), worst, " at worst.".into()]
            }
            (_, Lead::Above(at)) => self.room(verdict, at, "", (POINT_NAME.id, POINTS), (CLEARANCE, WORST))?,
            (_, Lead::Under(at)) => self.room(verdict, at, " below", (UNDER_NAME.id, UNDER), (UNDER_CLEARANCE, UNDER_WORST))?,
            (_, Lead::UnderChance(at)) => {
                let found = report.cell(UNDER_CHANCE, at)?;
                let [found, most] = Piece::apart([found.si(), report.of(CHANCE_MOST)?.si()], PERCENT, 2);
                let touches = format!("Beyond: {} touches below with a chance of ", self.name(UNDER_NAME.id, UNDER, at));
                vec![touches.into(), found, ", ".into(), most, " at most. ".into()]
            }
            (_, Lead::Road(id)) => {
                let (output, limit, when) =
                    if id == ROAD.id { (ROAD, ROAD_LEAST, "") } else { (ROAD_BUMP, ROAD_BUMP_LEAST, " after a bump") };
                let [found, wanted] = apart(report.of(output)?, report.of(limit)?);
                vec!["Beyond: ".into(), found, format!(" over the road{when}, ").into(), wanted, " wanted. ".into()]
            }
            (_, Lead::Opening(at)) => {
                let point = self.name(POINT_NAME.id, POINTS, at);
                let (left, wanted) = (report.cell(SWINGING, at)?, report.of(OPENING_LEAST)?);
                if left < Length::ZERO {
                    vec![format!("Beyond: the opening bonnet hits the {point} by ").into(), short(-left), ". Its hinge decides.".into()]
                } else {
                    let clears = format!("Beyond: the opening bonnet clears the {point} by ").into();
                    let [left, wanted] = apart(left, wanted);
                    vec![clears, left, ", ".into(), wanted, " wanted.".into()]
                }
            }
            (_, Lead::Joint(id)) => self.joint(verdict, if id == FRONT_JOINT.id { FRONT_JOINT } else { REAR_JOINT })?,
            (_, Lead::Shake) => {
                let (start, mark, most) = limits(verdict, SHAKE_MOST, SHAKE_WANTED);
                let [found, mark] = Piece::apart([report.of(SHAKE)?.si(), report.of(mark)?.si()], RAD_PER_S2, 3);
                let decides = match report.of(YOKES)? {
                    Yokes::InLine => ". Pinion angle decides.",
                    Yokes::Crossed => ". Put the yokes of the shaft in line.",
                };
                vec![format!("{start}: the driveline shakes with ").into(), found, most.into(), mark, decides.into()]
            }
            (_, Lead::Whirl) => {
                let [found, most] = Piece::apart([report.of(WHIRL)?.si(), report.of(WHIRL_MOST)?.si()], PERCENT, 3);
                vec!["Beyond: the propshaft runs at ".into(), found, " of its critical speed, ".into(), most, " at most.".into()]
            }
            (_, Lead::Chance) => {
                let [found, most] = Piece::apart([report.of(CHANCE_ANY)?.si(), report.of(CHANCE_MOST)?.si()], PERCENT, 2);
                vec!["Beyond: it touches with a chance of ".into(), found, ", ".into(), most, " at most. ".into()]
            }
        };
        if verdict == Verdict::Beyond && !matches!(lead, Lead::Opening(_) | Lead::Shake | Lead::Whirl) {
            pieces.extend(self.remedy());
        }
        Ok(pieces)
    }

    fn room(
        &self,
        verdict: Verdict,
        at: usize,
        below: &str,
        (name, table): (Id, TableId),
        (clearance, worst): (OutputColumn<Length>, OutputColumn<Length>),
    ) -> Words {
        let point = self.name(name, table, at);
        let (clears, worst) = (self.report.cell(clearance, at), self.report.cell(worst, at));
        if verdict == Verdict::Near {
            let just = format!("Only just: {point} clears{below} by ").into();
            return Ok(vec![just, short(clears?), ", ".into(), short(worst?), " at worst. Check with clay.".into()]);
        }
        // Beyond by one may go with unknown by the other.
        match (clears, worst) {
            (_, Ok(worst)) if worst < Length::ZERO => {
                Ok(vec![format!("Beyond: {point} hits{below} by ").into(), short(-worst), " at worst. ".into()])
            }
            (Ok(clears), _) if clears < Length::ZERO => {
                Ok(vec![format!("Beyond: {point} hits{below} by ").into(), short(-clears), " standing. ".into()])
            }
            _ => {
                let (standing, moving) = (self.report.of(ROOM_LEAST)?, self.report.of(WORST_LEAST)?);
                // By which of the two it is beyond.
                let (found, wanted, when) = match (clears, worst) {
                    (Ok(clears), _) if clears < standing => (clears, standing, ", "),
                    (_, Ok(worst)) if worst < moving => (worst, moving, " at worst, "),
                    (clears, _) => (clears?, standing, ", "),
                };
                let [found, wanted] = apart(found, wanted);
                let only = format!("Beyond: {point} clears{below} by only ").into();
                Ok(vec![only, found, when.into(), wanted, " wanted. ".into()])
            }
        }
    }

    fn joint(&self, verdict: Verdict, output: Output<Angle>) -> Words {
        let which = if output.id == FRONT_JOINT.id { "front" } else { "rear" };
        let bent = self.report.of(output)?;
        let mark = |input: Input<Angle>| self.report.of(input);
        let (start, most, at_most) = limits(verdict, JOINT_MOST, JOINT_WANTED);
        let (_, least, _) = limits(verdict, JOINT_STRAIGHT, JOINT_BENT);
        let (most, least) = (mark(most)?, mark(least)?);
        let at_least = if verdict == Verdict::Beyond { ", at least " } else { ", better at least " };
        let (limit, words, end) = if bent > most { (most, at_most, ". ") } else { (least, at_least, ", or its needles wear. ") };
        let [bent, limit] = Piece::apart([bent.si(), limit.si()], DEG, 2);
        Ok(vec![format!("{start}: {which} joint bends ").into(), bent, words.into(), limit, end.into()])
    }

    fn unknown(&self, lead: Lead) -> Words {
        let report = self.report;
        let place = |id: Id, table: TableId, at: usize| Place { id, row: self.build.rows(table).get(at).copied() };
        let (what, ids): (String, Vec<Place>) = match lead {
            Lead::Above(at) => {
                let what = format!("room over the {}", self.name(POINT_NAME.id, POINTS, at));
                (what, vec![place(CLEARANCE.id, POINTS, at), place(WORST.id, POINTS, at)])
            }
            Lead::Under(at) => {
                let what = format!("room under the {}", self.name(UNDER_NAME.id, UNDER, at));
                (what, vec![place(UNDER_CLEARANCE.id, UNDER, at), place(UNDER_WORST.id, UNDER, at)])
            }
            Lead::UnderChance(at) => ("chance of contact".into(), vec![place(UNDER_CHANCE.id, UNDER, at)]),
            Lead::Road(id) => ("room over the road".into(), vec![id.into()]),
            Lead::Opening(at) => ("room as the bonnet opens".into(), vec![place(SWINGING.id, POINTS, at)]),
            Lead::Joint(id) => ("angles of the joints".into(), vec![id.into()]),
            Lead::Shake => ("shake of the driveline".into(), vec![SHAKE.id.into()]),
            Lead::Whirl => ("critical speed of the propshaft".into(), vec![WHIRL.id.into()]),
            Lead::Chance => ("chance of contact".into(), vec![CHANCE_ANY.id.into()]),
        };
        // Its limit may be what is not known.
        let reason = ids.into_iter().find_map(|place| report.undecided(self.build, place));
        let reason = reason.map(|why| why.reason(report.layout())).unwrap_or_default();
        Ok(vec![format!("Unknown: {what}. {reason}").into()])
    }
}

/// How it is said, the mark that is passed, and what that asks.
fn limits<T>(verdict: Verdict, most: T, better: T) -> (&'static str, T, &'static str) {
    if verdict == Verdict::Beyond { ("Beyond", most, ", at most ") } else { ("Only just", better, ", better at most ") }
}
