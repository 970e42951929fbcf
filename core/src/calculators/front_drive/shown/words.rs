//! The answer in words: what stands worst comes first, two statements, three where more is beyond; one is of the alternator,
//! whose pulley is the choice.

use crate::build::Build;
use crate::calculators::car::HIGHEST_SPEED;
use crate::calculators::front_drive::declared::{
    ALTERNATOR_HIGH, ALTERNATOR_IDLE, BALANCE_CRUISE, BALANCE_IDLE, BELT_LENGTH, BELT_SLACK, BELT_SPEED, BELT_STRETCH, GAP, GRIP_HIGH,
    GRIP_IDLE, IDLE_RISE, LEAST_GRIP_FOUND, MISALIGNMENT, NAME, ONSET, PULLEYS, PUMP_NPSH, PUMP_SHARE, RIBS, TENSION_NEEDED, TENSION_SET,
    TURN_FITS, WET_GRIP, WRAP,
};
use crate::calculators::front_drive::designation::Designation;
use crate::order::Order;
use crate::overview::{against_limit, past};
use crate::quantity::unit::{A, N, ONE, PERCENT, RISE, RPM};
use crate::report::{Report, Standing, Unknown, lower_first};
use crate::sentence::{Piece, Sentence};
use crate::spec::{Id, Place, Verdict};
use core::cmp::Ordering;

type Words = Result<Vec<Piece>, Unknown>;

/// `The alternator turns 1910 min⁻¹ at idle and 15 980 min⁻¹ at most. The battery is left 9.5 A at idle. …`
pub(in super::super) fn sentence(build: &Build, report: &Report) -> Sentence {
    let tell = Tell { build, report };
    let mut said = vec![
        (tell.weigh(&[BALANCE_IDLE.id, BALANCE_CRUISE.id]), tell.charge()),
        (tell.weigh(&[BELT_SLACK.id, BELT_STRETCH.id]), tell.belt()),
        (tell.weigh(&[TENSION_SET.id, LEAST_GRIP_FOUND.id, WET_GRIP.id, GRIP_IDLE.id, GRIP_HIGH.id]), tell.grip()),
        (tell.weigh(&[BELT_SPEED.id, WRAP.id, GAP.id, MISALIGNMENT.id]), Ok(Vec::new())),
        (tell.weigh(&[ONSET.id, IDLE_RISE.id]), tell.pump()),
        (tell.weigh(&[TURN_FITS.id]), tell.direction()),
    ];
    said.order_by(|(one, _), (other, _)| one.rank(other));
    // What the choice turns comes second at the latest, after what is beyond.
    let alternator = tell.weigh(&[ALTERNATOR_HIGH.id, ALTERNATOR_IDLE.id]);
    let latest = 1 + said.iter().skip(1).take_while(|(it, _)| it.verdict == Verdict::Beyond).count();
    let turned = said.iter().take(latest).take_while(|(it, _)| it.rank(&alternator).is_lt()).count();
    said.insert(turned, (alternator, tell.alternator()));
    let verdict = said.iter().map(|(it, _)| if it.estimate { it.verdict.max(Verdict::Near) } else { it.verdict }).max();
    let mut pieces: Vec<Piece> = Vec::new();
    let (mut statements, mut asked) = (0, false);
    for (at, (weight, words)) in said.into_iter().enumerate() {
        if statements >= if weight.verdict == Verdict::Beyond || at == turned { 3 } else { 2 } {
            break;
        }
        // What is near and decides is told against its limit, and so is what has a limit and no words of its own for it.
        let wordless = matches!(&words, Ok(words) if words.is_empty()) && weight.past > f64::NEG_INFINITY;
        let against = |place: &Place| {
            wordless || [ALTERNATOR_HIGH.id, ALTERNATOR_IDLE.id].contains(&place.id) || at == 0 && weight.verdict == Verdict::Near
        };
        match weight.culprit.filter(against).map_or(words, |place| Ok(against_limit(build, report, place).pieces)) {
            Ok(words) if words.is_empty() => continue,
            Ok(words) => {
                pieces.extend(words);
                pieces.push(" ".into());
            }
            Err(Unknown::NotHere(_)) => continue,
            // One missing number at a time.
            Err(Unknown::NotGiven(_)) if asked => continue,
            Err(why) => {
                asked = true;
                let said: Piece = format!("Unknown: {} ", lower_first(&why.reason(report.layout()))).into();
                if pieces.contains(&said) {
                    continue;
                }
                pieces.push(said);
            }
        }
        statements += 1;
    }
    Sentence { verdict: verdict.unwrap_or(Verdict::Unknown), pieces }
}

/// How much a statement wants to be said first.
struct Weight {
    verdict: Verdict,
    /// Something rests on a guess, which is *near* at least.
    estimate: bool,
    /// How far past its limit what stands worst is.
    past: f64,
    /// That, when it is near or beyond.
    culprit: Option<Place>,
}

impl Weight {
    /// What stands worst first, and of that what is furthest past its limit.
    fn rank(&self, other: &Self) -> Ordering {
        other.verdict.cmp(&self.verdict).then(other.past.total_cmp(&self.past))
    }
}

struct Tell<'a> {
    build: &'a Build,
    report: &'a Report,
}

impl Tell<'_> {
    /// What stands worst of these, the furthest past its limit.
    fn weigh(&self, ids: &[Id]) -> Weight {
        let mut worst = Weight { verdict: Verdict::Within, estimate: false, past: f64::NEG_INFINITY, culprit: None };
        for place in ids.iter().flat_map(|&id| self.report.layout().places_of(id)).filter(|place| self.report.concerns(*place)) {
            let Standing { verdict, estimate, .. } = self.report.standing(self.build, place);
            if estimate {
                worst.estimate = true;
                continue;
            }
            let is_culprit = matches!(verdict, Verdict::Near | Verdict::Beyond);
            let past = if is_culprit { past(self.build, self.report, place) } else { f64::NEG_INFINITY };
            if (verdict, past) > (worst.verdict, worst.past) {
                worst = Weight { verdict, past, culprit: is_culprit.then_some(place), ..worst };
            }
        }
        worst
    }

    /// Whether any of these is near or beyond.
    fn is_culprit(&self, ids: &[Id]) -> bool {
        self.weigh(ids).culprit.is_some()
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
        let length = self.report.of(BELT_LENGTH)?;
        let ribs = self.report.of(RIBS)?.si().round().clamp(0.0, 255.0) as u8;
        let name = Designation { ribs, length }.to_string();
        let fits = !self.is_culprit(&[BELT_SLACK.id, BELT_STRETCH.id]);
        let (slack, stretch) = (self.report.of(BELT_SLACK)?, self.report.of(BELT_STRETCH)?);
        Ok(if fits {
            vec![name.into(), " goes on and takes up ".into(), Piece::Figure { value: stretch.si(), unit: PERCENT, digits: 2 }, ".".into()]
        } else if slack.si() < 0.0 {
            vec![name.into(), " is too short to go on.".into()]
        } else if stretch.si() < 0.0 {
            vec![name.into(), " is too long to be made tight.".into()]
        } else {
            Vec::new()
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
        Ok(if self.report.of(WET_GRIP)?.si() < 1.0 {
            vec!["The belt slips when wet.".into()]
        } else {
            vec!["The belt can hold ".into(), Piece::figure(grip.si(), ONE), " times what it has to.".into()]
        })
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
        if onset >= most && self.is_culprit(&[IDLE_RISE.id]) {
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
        match self.weigh(&[TURN_FITS.id]) {
            Weight { verdict: Verdict::Beyond, culprit: Some(place), .. } => {
                Ok(vec!["The ".into(), self.name(place).into(), " turns the wrong way.".into()])
            }
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
