//! What core makes of a build without any page: what the page must show.

use anyhow::{Context, Result, ensure};
use trialfit_core::build::Build;
use trialfit_core::calculators::ALL;
use trialfit_core::plan::Plan;
use trialfit_core::report::Report;
use trialfit_core::sentence::{Piece, Sentence};
use trialfit_core::share::{link, stored};
use trialfit_core::show::{self, System};

/// The answer of a calculator as a voice reads it in the page.
pub(crate) fn spoken(build: &Build, calculator: &str, system: System) -> Result<String> {
    let it = ALL.iter().find(|it| it.key == calculator).context("no such calculator")?;
    let mut report = Report::new(build);
    Plan::default().evaluate(build, &mut report);
    let Sentence { verdict, pieces } = (it.sentence)(build, &report);
    let piece = |piece: &Piece| match piece {
        Piece::Words(words) => words.clone().into_owned(),
        Piece::Figure { value, unit, digits } => show::figure(*value, unit, *digits, system).spoken,
    };
    let said: String = pieces.iter().map(piece).collect();
    // The verdict's word comes first, whether the sentence begins with it or not.
    let (first, rest) = verdict.word().split_at(1);
    let word = format!("{}{rest}", first.to_uppercase());
    Ok(if said.starts_with(&word) { said } else { format!("{word}: {said}") })
}

/// The same for the build a link carries, in metric units.
pub(crate) fn answer(text: &str, calculator: &str) -> Result<String> {
    spoken(&opened(text)?, calculator, System::Metric)
}

/// The build of a link that has nothing wrong with it.
pub(crate) fn opened(text: &str) -> Result<Build> {
    let opened = link::read(text)?;
    ensure!(opened.problems.is_empty(), "{:?}", opened.problems);
    Ok(opened.link.build)
}

/// The build in a text the page kept, which must be whole.
pub(crate) fn kept(text: Option<String>) -> Result<Build> {
    let (stored, problems) = stored::read(&text.context("nothing is kept")?)?;
    ensure!(problems.is_empty(), "{problems:?}");
    Ok(stored.link.build)
}
