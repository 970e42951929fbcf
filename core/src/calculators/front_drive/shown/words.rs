//! The answer in words: what stands worst comes first, three statements at most.

use crate::build::Build;
use crate::calculators::car::HIGHEST_SPEED;
use crate::calculators::front_drive::declared::{
    ALTERNATOR_HIGH, ALTERNATOR_IDLE, BALANCE_CRUISE, BALANCE_IDLE, BELT_LENGTH, BELT_SLACK, BELT_SPEED, BELT_STRETCH, GAP, GRIP_HIGH,
    GRIP_IDLE, IDLE_RISE, LEAST_GRIP_FOUND, MISALIGNMENT, NAME, ONSET, PULLEYS, PUMP_NPSH, PUMP_SHARE, RIBS, TENSION_NEEDED, TENSION_SET,
    TURN_FITS, WET_GRIP, WRAP,
};
use crate::calculators::front_drive::designation::Designation;
use crate::quantity::unit::{A, DEG, M_PER_S, MM, N, ONE, PERCENT, RISE, RPM};
use crate::report::{Report, Unknown, lower_first};
use crate::sentence::{Piece, Sentence};
use crate::spec::{Id, Place, Verdict};

type Words = Result<Vec<Piece>, Unknown>;

/// `The alternator turns 1910 min⁻¹ at idle and 15 980 min⁻¹ at most. The battery is left 9.5 A at idle. …`
pub(in super::super) fn sentence(build: &Build, report: &Report) -> Sentence {
    let tell = Tell { build, report };
    let mut said = [
        (tell.worst(&[ALTERNATOR_HIGH.id, ALTERNATOR_IDLE.id]), tell.alternator()),
        (tell.worst(&[BALANCE_IDLE.id, BALANCE_CRUISE.id]), tell.charge()),
        (tell.worst(&[WRAP.id, GAP.id, MISALIGNMENT.id, BELT_SLACK.id, BELT_STRETCH.id]), tell.belt()),
        (tell.worst(&[TENSION_SET.id, LEAST_GRIP_FOUND.id, WET_GRIP.id, GRIP_IDLE.id, GRIP_HIGH.id, BELT_SPEED.id]), tell.grip()),
        (tell.worst(&[ONSET.id, IDLE_RISE.id]), tell.pump()),
        (tell.worst(&[TURN_FITS.id]), tell.direction()),
    ];
    said.sort_by_key(|((verdict, _), _)| core::cmp::Reverse(*verdict));
    let verdict = said.iter().map(|((verdict, estimate), _)| if *estimate { Verdict::Near } else { *verdict }).max();
    let mut pieces: Vec<Piece> = Vec::new();
    let mut reasons: Vec<Unknown> = Vec::new();
    let mut statements = 0;
    for (_, words) in said {
        match words {
            Ok(words) if words.is_empty() => continue,
            Ok(words) => {
                pieces.extend(words);
                pieces.push(" ".into());
            }
            Err(Unknown::NotHere(_)) => continue,
            // Often one missing number is behind them all: it is asked for once.
            Err(why) if reasons.contains(&why) => continue,
            Err(why) => {
                pieces.push(format!("Unknown: {} ", lower_first(&why.reason(report.layout()))).into());
                reasons.push(why);
            }
        }
        statements += 1;
        if statements == 3 {
            break;
        }
    }
    Sentence { verdict: verdict.unwrap_or(Verdict::Unknown), pieces }
}

/// How much a statement wants to be said first: its verdict, and whether it is *near* only because it rests on a guess.
type Weight = (Verdict, bool);

struct Tell<'a> {
    build: &'a Build,
    report: &'a Report,
}

impl Tell<'_> {
    fn standings<'b>(&'b self, ids: &'b [Id]) -> impl Iterator<Item = (Weight, Place)> + 'b {
        ids.iter().flat_map(|&id| self.report.layout().places_of(id)).filter(|place| self.report.concerns(*place)).map(|place| {
            let standing = self.report.standing(self.build, place);
            let verdict = if standing.estimate { Verdict::Within } else { standing.verdict };
            ((verdict, standing.estimate), place)
        })
    }

    fn worst(&self, ids: &[Id]) -> Weight {
        self.standings(ids).map(|(weight, _)| weight).max().unwrap_or((Verdict::Within, false))
    }

    /// The place that stands worst, the first such, when it is near or beyond.
    fn culprit(&self, ids: &[Id]) -> Option<(Verdict, Place)> {
        let worst = self.standings(ids).reduce(|worst, next| if next.0.0 > worst.0.0 { next } else { worst });
        worst.map(|((verdict, _), place)| (verdict, place)).filter(|(verdict, _)| matches!(verdict, Verdict::Near | Verdict::Beyond))
    }

    fn alternator(&self) -> Words {
        Ok(vec![
            "The alternator turns ".into(),
            speed(self.report.of(ALTERNATOR_IDLE)?.si()),
            " at idle and ".into(),
            speed(self.report.of(ALTERNATOR_HIGH)?.si()),
            " at most.".into(),
        ])
    }

    fn charge(&self) -> Words {
        let (idle, cruise) = (self.report.of(BALANCE_IDLE)?, self.report.of(BALANCE_CRUISE)?);
        let (least, when) = if idle <= cruise { (idle, "idle") } else { (cruise, "cruise") };
        let (before, after) = if least.si() < 0.0 { ("The battery loses ", " at ") } else { ("The battery is left ", " at ") };
        Ok(vec![before.into(), Piece::figure(least.abs().si(), A), after.into(), when.into(), ".".into()])
    }

    fn belt(&self) -> Words {
        if let Some((verdict, place)) = self.culprit(&[WRAP.id, GAP.id, MISALIGNMENT.id]) {
            let value = self.report.value(place)?;
            let only = if verdict == Verdict::Beyond { "only " } else { "" };
            let (about, unit, on, end) = match place.id {
                id if id == WRAP.id => (format!("The belt lies {only}"), DEG, " on the ", "."),
                id if id == GAP.id => (format!("There is {only}"), MM, " of room beside the ", "."),
                _ => ("The belt runs across at ".to_owned(), DEG, " from the ", " to the next pulley."),
            };
            return Ok(vec![about.into(), Piece::figure(value, unit), on.into(), self.name(place).into(), end.into()]);
        }
        let length = self.report.of(BELT_LENGTH)?;
        let ribs = self.report.of(RIBS)?.si().round().clamp(0.0, 255.0) as u8;
        let name = Designation { ribs, length }.to_string();
        let fits = self.culprit(&[BELT_SLACK.id, BELT_STRETCH.id]).is_none();
        let (slack, stretch) = (self.report.of(BELT_SLACK)?, self.report.of(BELT_STRETCH)?);
        Ok(if fits {
            vec![name.into(), " goes on and takes up ".into(), Piece::Figure { value: stretch.si(), unit: PERCENT, digits: 2 }, ".".into()]
        } else if slack.si() < 0.0 {
            vec![name.into(), " is too short to go on.".into()]
        } else if stretch.si() < 0.0 {
            vec![name.into(), " is too long to be made tight.".into()]
        } else {
            vec![
                name.into(),
                " has ".into(),
                Piece::Figure { value: slack.si(), unit: MM, digits: 2 },
                " to go on and can take up ".into(),
                Piece::Figure { value: stretch.si(), unit: PERCENT, digits: 2 },
                ".".into(),
            ]
        })
    }

    fn grip(&self) -> Words {
        let grip = self.report.of(LEAST_GRIP_FOUND)?;
        if grip.si() < 1.0 {
            let (needed, set) = (self.report.of(TENSION_NEEDED)?, self.report.of(TENSION_SET)?);
            return Ok(vec![
                "The belt slips: ".into(),
                Piece::figure(needed.si(), N),
                " are needed, ".into(),
                Piece::figure(set.si(), N),
                " are set.".into(),
            ]);
        }
        if self.culprit(&[LEAST_GRIP_FOUND.id, TENSION_SET.id]).is_none() && self.culprit(&[BELT_SPEED.id]).is_some() {
            let speed = self.report.of(BELT_SPEED)?;
            return Ok(vec!["The belt runs at ".into(), Piece::figure(speed.si(), M_PER_S), " at most.".into()]);
        }
        let wet = if self.report.of(WET_GRIP)?.si() < 1.0 { " times what it has to; wet it slips." } else { " times what it has to." };
        Ok(vec!["The belt can hold ".into(), Piece::figure(grip.si(), ONE), wet.into()])
    }

    fn pump(&self) -> Words {
        let share = self.report.of(PUMP_SHARE)?;
        let missing = |why: &Unknown| matches!(why, Unknown::NotGiven(id) if *id == PUMP_NPSH.id);
        if self.report.of(ONSET).as_ref().is_err_and(missing) {
            return Ok(vec![
                "Without the pump's data only this: it turns at ".into(),
                Piece::figure(share.si(), PERCENT),
                " of its reference speed.".into(),
            ]);
        }
        let (onset, most, rise) = (self.report.of(ONSET)?, self.report.of(HIGHEST_SPEED)?, self.report.of(IDLE_RISE)?);
        if onset >= most && self.culprit(&[IDLE_RISE.id]).is_some() {
            return Ok(vec![
                "At idle the coolant warms by ".into(),
                Piece::figure(rise.si(), RISE),
                ": the pump starves the engine.".into(),
            ]);
        }
        if onset.si() == 0.0 {
            return Ok(vec!["By estimate the coolant boils at the pump's inlet as it stands.".into()]);
        }
        let onset_said = Piece::figure(onset.si(), RPM);
        Ok(if onset < most {
            vec!["By estimate the pump cavitates from ".into(), onset_said, " of the engine.".into()]
        } else {
            vec!["By estimate the pump is clear of cavitation up to ".into(), onset_said, " of the engine.".into()]
        })
    }

    /// Only told when something is wrong with it.
    fn direction(&self) -> Words {
        match self.culprit(&[TURN_FITS.id]) {
            Some((Verdict::Beyond, place)) => Ok(vec!["The ".into(), self.name(place).into(), " turns the wrong way.".into()]),
            _ => Ok(Vec::new()),
        }
    }

    /// What the pulley of a row is called: its name, else its number.
    fn name(&self, place: Place) -> String {
        let words = self.build.text(Place { id: NAME.id, row: place.row });
        let at = self.build.rows(PULLEYS).iter().position(|&row| Some(row) == place.row);
        if words.is_empty() { format!("pulley {}", at.map_or(0, |at| at + 1)) } else { lower_first(words) }
    }
}

fn speed(value: f64) -> Piece {
    Piece::Figure { value, unit: RPM, digits: 4 }
}
