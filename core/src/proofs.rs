//! What to do and prove on the car itself: what each calculator asks to see, in the order of the work, with the figures of
//! the build to hold against.

use crate::build::Build;
use crate::calculators::Calculator;
use crate::order::Order;
use crate::report::Report;
use crate::sentence::Piece;
use crate::show::{self, System};
use crate::spec::{Id, Kind, Role, Verdict};

/// When it is done, in the order of the work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Stage {
    /// With the parts in one's hands.
    Bench,
    /// As they go into the car.
    Fitting,
    /// Before the engine runs for the first time.
    Start,
    /// With the engine running, the car standing.
    Running,
    /// On the first drive, and after it.
    Drive,
}

impl Stage {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Bench, Self::Fitting, Self::Start, Self::Running, Self::Drive];

    /// Its heading.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Bench => "On the bench",
            Self::Fitting => "As it goes in",
            Self::Start => "Before the first start",
            Self::Running => "With the engine running",
            Self::Drive => "On the first drive and after",
        }
    }
}

/// One thing to see to, as a calculator declares it. All are common practice, no source.
#[derive(Clone, Copy, Debug)]
pub struct Proof {
    /// Its word, which stays for ever: ticks are kept under it and its calculator's.
    pub key: &'static str,
    /// When.
    pub stage: Stage,
    /// What to do, or what has to be so; `{}` stands for each figure.
    pub words: &'static str,
    /// The quantities whose figures those are, in this order; of no table.
    pub figures: &'static [Id],
}

/// Declares one.
#[must_use]
pub const fn prove(stage: Stage, key: &'static str, words: &'static str, figures: &'static [Id]) -> Proof {
    Proof { key, stage, words, figures }
}

/// The same of one build.
#[derive(Clone, Debug, PartialEq)]
pub struct Due {
    /// Whose it is: a place in the list of calculators.
    pub calculator: u8,
    /// `clutch.pedal-stop`.
    pub key: String,
    /// When.
    pub stage: Stage,
    /// Its words with the figures of this build; `?` for one that is not known.
    pub pieces: Vec<Piece>,
    /// Its figures as text, metric: a tick holds for these alone. Empty where it has none.
    pub figures: String,
    /// The first figure that is an output, for whoever wants to know how it comes about.
    pub answer: Option<Id>,
    /// How the worst of its figures stands; *within* where none is judged.
    pub verdict: Verdict,
    /// The cautions of its figures.
    pub cautions: Vec<&'static str>,
}

/// All of a build, by stage; within one in the order of the calculators. What speaks of something the car has not is left
/// out.
#[must_use]
pub fn proofs(build: &Build, report: &Report) -> Vec<Due> {
    let concerns = |proof: &&Proof| proof.figures.iter().all(|&id| report.concerns(id.into()));
    let of =
        |(at, it): (usize, &&'static Calculator)| it.proofs.iter().filter(concerns).map(move |proof| due(build, report, at as u8, proof));
    let mut all: Vec<Due> = build.layout().calculators().iter().enumerate().flat_map(of).collect();
    all.order_by_key(|due| due.stage);
    all
}

fn due(build: &Build, report: &Report, calculator: u8, proof: &Proof) -> Due {
    let layout = build.layout();
    let is_output = |id: &Id| layout.spec(*id).role == Role::Output;
    let figure = |id: Id| match (report.value(id.into()), layout.kind(id)) {
        (Ok(value), Kind::Quantity { unit, .. }) if is_output(&id) => {
            Piece::Figure { value, unit, digits: show::digits_of(report, id.into(), unit) }
        }
        (Ok(value), _) => Piece::cell(layout.spec(id), value),
        (Err(_), _) => "?".into(),
    };
    let figures: Vec<Piece> = proof.figures.iter().map(|&id| figure(id)).collect();
    let stands = |id: Id| match report.value(id.into()) {
        Err(_) => Verdict::Unknown,
        Ok(_) if layout.spec(id).is_judged() => report.verdict(build, id.into()),
        Ok(_) => Verdict::Within,
    };
    let mut cautions: Vec<&'static str> = Vec::new();
    for id in proof.figures {
        let caution = layout.spec(*id).caution;
        if !caution.is_empty() && !cautions.contains(&caution) {
            cautions.push(caution);
        }
    }
    Due {
        calculator,
        key: format!("{}.{}", layout.calculators()[usize::from(calculator)].key, proof.key),
        stage: proof.stage,
        figures: figures.iter().map(|it| show::piece(it, System::Metric)).collect::<Vec<_>>().join(", "),
        pieces: filled(proof.words, figures),
        answer: proof.figures.iter().copied().find(is_output),
        verdict: proof.figures.iter().map(|&id| stands(id)).max().unwrap_or(Verdict::Within),
        cautions,
    }
}

/// The words with a figure for each `{}`.
fn filled(words: &'static str, figures: Vec<Piece>) -> Vec<Piece> {
    let mut parts = words.split("{}").map(Piece::from);
    let mut pieces: Vec<Piece> = parts.next().into_iter().collect();
    for (figure, part) in figures.into_iter().zip(parts) {
        pieces.extend([figure, part]);
    }
    pieces
}
