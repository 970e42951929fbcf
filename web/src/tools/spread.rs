//! How far an answer may be off for what its inputs may be off by.

use super::runner::Runner;
use super::sweep::{at, in_digits};
use super::{going, pick_answer, unit_of, watched};
use crate::bench::{Bench, plan, spec_of};
use crate::dom::{El, el};
use crate::field::beside;
use crate::follow::effect;
use crate::signal::State;
use crate::words;
use trialfit_core::share::link::{Asked, Tool};
use trialfit_core::show;
use trialfit_core::spec::{Kind, Place, Sense};
use trialfit_core::tools::spread::{Found, Outcome, SAMPLES, SEED, Spread};

/// An input with a smaller share of the variance is not listed.
const LEAST_SHARE: f64 = 0.001;

/// Pick, samples and what they show.
pub(super) fn spread(calculator: u8) -> El {
    let bench = Bench::get();
    let asked_for = bench.wanted(Tool::Spread);
    let output = State::new(asked_for.and_then(|asked| asked.watch).unwrap_or_else(|| watched(calculator)));
    bench.knows(Tool::Spread, move || Asked { watch: Some(output.get()), ..Asked::of(Tool::Spread) });
    let runner = Runner::<Found>::new();
    let problem = State::new(None::<String>);
    effect(move |first| {
        bench.when_calm();
        output.with(|_| ());
        if !first {
            problem.set(None);
            runner.forget();
        }
    });
    let go = move || match bench.look_now(|build, _| Spread::new(plan(), build, &[output.get_untracked()], SAMPLES, SEED)) {
        Ok(job) if job.inputs().is_empty() => problem.set(Some(words::NOTHING_IS_OFF.to_owned())),
        Ok(job) => {
            problem.set(None);
            runner.start(job);
        }
        Err(why) => problem.set(Some(bench.look_now(|_, report| why.reason(report.layout())))),
    };
    if asked_for.is_some() {
        go();
    }
    el("div")
        .class("tool")
        .child(el("p").class("help").text(words::SPREAD_HELP))
        .child(pick_answer("spread-output", calculator, output, |_| ()))
        .child(going("spread-go", words::DRAW_SAMPLES, runner, go))
        .maybe(move || problem.get().map(|why| el("p").class("problem").text(&why)))
        .many(move || runner.with(|found| found.map(found_lines).unwrap_or_default()))
}

fn found_lines(found: &Found) -> Vec<El> {
    let Some(outcome) = found.outcomes.first() else { return Vec::new() };
    let place = outcome.place;
    let mut lines = Vec::new();
    let quantile = |share: f64| outcome.quantile(share);
    if let (Some(low), Some(middle), Some(high)) = (quantile(0.05), quantile(0.5), quantile(0.95)) {
        let [middle, low, high] = [middle, low, high].map(|value| in_digits(place, value, digits(place, low, high)));
        lines.push(el("p").class("found").text(&words::nine_of_ten(&middle, &low, &high)));
    }
    lines.extend(limits(outcome).iter().map(|words| el("p").class("found").text(words)));
    lines.extend(both_ways(outcome).map(|words| el("p").class("note").text(&words)));
    if outcome.unknown > 0 {
        lines.push(el("p").class("note").text(&words::without_answer(&count(outcome.unknown), &count(found.samples))));
    }
    if found.held_back > 0 {
        lines.push(el("p").class("note").text(words::HELD_BACK));
    }
    lines.push(shares(outcome));
    lines.push(el("p").class("note").text(&words::samples(&count(found.samples))));
    lines
}

/// As many digits as tell the ends of a stretch apart in two of them, at least three.
fn digits(place: Place, low: f64, high: f64) -> u8 {
    let Some(unit) = leptos::prelude::untrack(|| unit_of(place)) else { return 3 };
    let [low, high] = [low, high].map(|end| unit.from_si(end));
    let share = low.abs().max(high.abs()) / (high - low);
    if share.is_finite() { (libm::log10(share).ceil() as u8).saturating_add(2).clamp(3, 9) } else { 3 }
}

fn count(samples: u32) -> String {
    show::count(f64::from(samples))
}

/// How likely each limit is passed.
fn limits(outcome: &Outcome) -> Vec<String> {
    let bench = Bench::get();
    let said = outcome.past.iter().filter_map(|(limit, chance)| {
        let mark = beside(limit.beyond, outcome.place);
        let value = bench.value_now(mark).ok()?;
        let mark = show::cell(spec_of(mark), value, bench.system()).to_string();
        Some(words::chance(limit.sense, &mark, chance.share, chance.error))
    });
    // Where an answer can change its sign, nought is a limit of its own: room that is none is contact.
    let signed = outcome.ends.is_some_and(|[least, _]| least - outcome.deviation < 0.0);
    let nought = outcome.below_nought.filter(|_| signed && said.clone().next().is_none());
    let nought = nought.map(|chance| words::chance(Sense::AtLeast, &at(outcome.place, 0.0), chance.share, chance.error));
    said.chain(nought).collect()
}

/// The standard deviation by samples and to first order, and whether they agree.
fn both_ways(outcome: &Outcome) -> Option<String> {
    let Kind::Quantity { dimension, unit } = spec_of(outcome.place).kind else { return None };
    let (dimension, unit) = dimension.difference(unit);
    let unit = Bench::get().system().unit(dimension, unit);
    let off = |value: f64| show::answer(value, unit, 2).to_string();
    let first = outcome.first_order.map(|stack| stack.deviation());
    let agree = first.is_some_and(|first| (first - outcome.deviation).abs() <= 0.1 * outcome.deviation.max(first));
    Some(words::deviation(&off(outcome.deviation), first.map(off).as_deref(), agree))
}

/// What it hangs on.
fn shares(outcome: &Outcome) -> El {
    let bench = Bench::get();
    let percent = |share: f64| format!("{:.1} %", 100.0 * share);
    let row = |place: Place, of_variance: f64, first: Option<f64>| {
        let label = bench.build().with_untracked(|build| show::label(build, place));
        let link = el("a").set("href", &format!("#{}", bench.key(place))).text(&label);
        let cell = |text: &str| el("td").text(text);
        let first = first.map_or_else(|| "—".to_owned(), percent);
        el("tr").child(el("th").set("scope", "row").child(link)).child(cell(&percent(of_variance))).child(cell(&first))
    };
    let listed = outcome
        .shares
        .iter()
        .filter(|share| share.of_variance >= LEAST_SHARE || share.first_order.is_some_and(|first| first >= LEAST_SHARE));
    let rows = listed.map(|share| row(share.place, share.of_variance, share.first_order));
    let head = [words::HANGS_ON, words::BY_SAMPLES, words::TO_FIRST_ORDER].map(|title| el("th").set("scope", "col").text(title));
    let table = el("table")
        .child(el("caption").text(words::HANGS_ON_CAPTION))
        .child(el("thead").child(el("tr").children(head)))
        .child(el("tbody").children(rows));
    el("div").class("plot-values").set("tabindex", "0").set("role", "group").set("aria-label", words::HANGS_ON_CAPTION).child(table)
}
