//! What a search found: the front to tap through, what was ruled out, each set of parts with its chances.

use super::{Ask, Question};
use crate::bench::{Bench, plan, spec_of};
use crate::dom::{El, button, el, folded};
use crate::follow::{effect, settle};
use crate::page::focus_later;
use crate::parts::{cautions, total, weight};
use crate::pictures::units;
use crate::plot::{Taking, plot};
use crate::signal::{State, memo};
use crate::tools::runner::Runner;
use crate::tools::sweep::at;
use crate::words;
use leptos::prelude::Callback;
use std::rc::Rc;
use trialfit_core::build::Build;
use trialfit_core::chart::{Axis, Chart, Spot};
use trialfit_core::order::Order;
use trialfit_core::quantity::unit::{KG, ONE};
use trialfit_core::quantity::{Mass, Ratio};
use trialfit_core::shelf::{self, Price};
use trialfit_core::show;
use trialfit_core::spec::{Kind, Place};
use trialfit_core::tools::combine::{Aim, CHANCES, Chances, Chancing, Combined, Must, Trade, What};
use trialfit_core::tools::spread::SEED;

/// So many sets are listed at once; the chart has them all.
const LISTED: usize = 40;

/// So many of what may fail are named.
const NAMED: usize = 6;

/// A chance smaller than this is none that one tells.
const TOLD: f64 = 5e-5;

/// Everything a search found.
pub(super) fn lines(ask: Ask, question: &Question, found: &Combined, looked: State<usize>, go: impl Fn() + 'static) -> Vec<El> {
    let trades = found.front.trades();
    let said = if trades.is_empty() {
        words::none_passes(&show::count(found.combinations))
    } else {
        words::front(trades.len(), &show::count(found.passed as f64), &show::count(found.combinations))
    };
    let mut lines = vec![el("p").class("found").id("combined").text(&said)];
    if trades.is_empty() {
        lines.extend(most_fail(ask, question, found, go));
    } else {
        lines.extend(chart(question, trades, looked));
        lines.push(list(question, trades, looked));
    }
    let (question, found) = (question.clone(), found.clone());
    let out = el("details").class("row-more").id("ruled-out").child(el("summary").text(words::RULED_OUT));
    lines.push(folded(out, move || ruled_out(&question, &found)));
    lines
}

/// What stops most, and a way to do without it: searched anew at once.
fn most_fail(ask: Ask, question: &Question, found: &Combined, go: impl Fn() + 'static) -> Option<El> {
    let worst = question.musts.iter().zip(&found.failed).max_by(|one, other| one.1.total_cmp(other.1));
    let (&must, _) = worst.filter(|(_, count)| **count > 0.0)?;
    let name = must_words(must);
    let without = button("quiet", "waive").text(&words::do_without(&name)).on_press(move || {
        ask.waive(must);
        // What was found is forgotten first, and the button with it.
        settle();
        go();
        focus_later("combine-go".into());
    });
    Some(el("p").class("acts").child(without))
}

fn ruled_out(question: &Question, found: &Combined) -> El {
    let mut counts: Vec<(f64, String)> =
        question.musts.iter().zip(&found.failed).map(|(must, count)| (*count, must_words(*must))).collect();
    counts.push((found.forbidden, words::BY_RULES.to_owned()));
    counts.push((found.not_compared as f64, words::NOT_COMPARED.to_owned()));
    counts.retain(|(count, _)| *count > 0.0);
    counts.order_by(|one, other| other.0.total_cmp(&one.0));
    let counted = counts.iter().map(|(count, what)| el("li").text(&words::so_many(&show::count(*count), what)));
    let left_out = found.left_out.iter().filter_map(|(at, place, _)| {
        let part = at.of(&question.shelves)?;
        Some(el("li").text(&words::not_set(&part.name, &label(*place))))
    });
    el("div").child(el("p").class("help").text(words::RULED_OUT_HELP)).child(el("ul").class("differs").children(counted).children(left_out))
}

fn label(place: Place) -> String {
    Bench::get().build().with_untracked(|build| show::label(build, place))
}

/// What was asked, in words.
fn must_words(must: Must) -> String {
    let name = label(must.place());
    match must {
        Must::Stand(..) => name,
        Must::AtMost(place, most) => format!("{name} {} {}", words::AT_MOST, at(place, most)),
        Must::AtLeast(place, least) => format!("{name} {} {}", words::AT_LEAST, at(place, least)),
    }
}

/// A figure of an aim in the reader's units.
fn figure(aim: Aim, figure: f64) -> String {
    match aim.what {
        What::Output(place) => at(place, figure),
        What::Price(currency) => Price { thousandths: (figure * 1000.0).round() as u64, currency }.to_string(),
        What::Mass => weight(Mass::from_si(figure)),
    }
}

fn name(aim: Aim) -> String {
    match aim.what {
        What::Output(place) => spec_of(place).label.to_owned(),
        What::Price(currency) => words::price_in(currency),
        What::Mass => words::MASS_ADDED.to_owned(),
    }
}

fn figures(question: &Question, trade: &Trade) -> String {
    let each = question.aims.iter().zip(&trade.figures).map(|(aim, value)| figure(*aim, *value));
    each.collect::<Vec<_>>().join(" · ")
}

/// The first two aims against each other.
fn chart(question: &Question, trades: &[Trade], looked: State<usize>) -> Option<El> {
    let &[one, other, ..] = question.aims.as_slice() else { return None };
    if trades.len() < 2 {
        return None;
    }
    let axis = |aim: Aim| {
        let (dimension, unit) = match aim.what {
            What::Output(place) => match spec_of(place).kind {
                Kind::Quantity { dimension, unit } => (dimension, unit),
                _ => (Ratio::DIMENSION, ONE),
            },
            What::Price(_) => (Ratio::DIMENSION, ONE),
            What::Mass => (Mass::DIMENSION, KG),
        };
        Axis { label: name(aim).into(), dimension, unit }
    };
    let spot = |(at, trade): (usize, &Trade)| {
        let parts = trade.parts.iter().flatten().filter_map(|at| at.of(&question.shelves));
        Spot {
            at: (trade.figures[0], trade.figures[1]),
            label: words::nth(words::SET, at + 1),
            good: true,
            present: false,
            sets: parts.flat_map(|part| part.sets.iter().copied()).collect(),
        }
    };
    let spots: Vec<Spot> = trades.iter().enumerate().map(spot).collect();
    let labels: Vec<String> = spots.iter().map(|spot| spot.label.clone()).collect();
    let drawn = Chart { title: words::against(&name(other), &name(one)), x: axis(one), y: axis(other), spots, ..crate::pictures::empty() };
    let chart = memo(move || {
        let mut chart = drawn.clone();
        if let Some(spot) = chart.spots.get_mut(looked.get()) {
            spot.present = true;
        }
        chart
    });
    let take = Callback::new(move |spot: Spot| {
        if let Some(at) = labels.iter().position(|label| *label == spot.label) {
            looked.set(at);
        }
    });
    Some(plot(chart, Taking { units: units(), take }))
}

/// The sets one under another, the one looked at open.
fn list(question: &Question, trades: &[Trade], looked: State<usize>) -> El {
    let (question, trades) = (Rc::new(question.clone()), Rc::new(trades.to_vec()));
    let row = |at: usize| {
        let (its, all) = (question.clone(), trades.clone());
        let take = button("plot-spot", &format!("set-{}", at + 1))
            .flag("aria-expanded", move || looked.get() == at)
            .child(el("span").text(&words::nth(words::SET, at + 1)))
            .text(" ")
            .child(el("small").text(&figures(&question, &trades[at])))
            .on_press(move || looked.set(at));
        el("li").child(take).when(move || looked.get() == at, move || card(its.clone(), &all[at]))
    };
    let shown = trades.len().min(LISTED);
    let (its, all) = (question.clone(), trades.clone());
    // One beyond the list was taken on the chart.
    let beyond = move || {
        let at = looked.get();
        (at >= shown).then(|| el("li").child(el("p").text(&words::nth(words::SET, at + 1))).child(card(its.clone(), &all[at])))
    };
    let rest = (trades.len() > shown).then(|| el("li").class("note").text(&words::more(trades.len() - shown)));
    el("ul").class("plot-list front").set("aria-label", words::FRONT).children((0..shown).map(row)).children(rest).maybe(beyond)
}

/// One set: figures, parts, chances, and a button that fits it.
fn card(question: Rc<Question>, trade: &Trade) -> El {
    let aims = question
        .aims
        .iter()
        .zip(&trade.figures)
        .map(|(aim, value)| el("div").child(el("dt").text(&name(*aim))).child(el("dd").text(&figure(*aim, *value))));
    let part = |(slot, at): (usize, &Option<shelf::At>)| {
        let shelves = &question.shelves;
        let named = |id: &str| {
            shelves.iter().flat_map(|shelf| &shelf.slots).find(|slot| slot.id == id).map_or(String::new(), |slot| slot.name.clone())
        };
        let slot = named(&question.search[slot].slot);
        let part = at.as_ref()?.of(shelves)?;
        let price = part.price.map(|price| format!(" · {price}")).unwrap_or_default();
        let named = el("span").own(&slot).own(": ").child(el("bdi").own(&part.name)).text(&price);
        Some(el("li").child(named).children(cautions(&part.cautions)))
    };
    let parts = trade.parts.iter().enumerate().filter_map(part);
    let fitted = question.fitted(trade);
    // Price and mass are of the whole kit.
    let chosen = question.base.parts().iter().map(|part| part.name.to_string()).collect::<Vec<_>>();
    let chosen = (!chosen.is_empty()).then(|| el("p").class("note").text(words::ALREADY_CHOSEN).own(&chosen.join(", ")));
    let kit = shelf::kit(&question.shelves, &fitted);
    let (its, found) = (question.clone(), trade.clone());
    let is_fitted = memo({
        let fitted = fitted.clone();
        move || {
            Bench::get()
                .build()
                .with(|build| build.parts().len() == fitted.parts().len() && fitted.parts().iter().all(|part| build.parts().contains(part)))
        }
    });
    let fit = button("", "fit-set").text(words::FIT_PARTS).on_press(move || {
        let (its, found) = (its.clone(), found.clone());
        Bench::get().try_out(words::FITTING, move |build| {
            trialfit_core::tools::combine::fit(&its.shelves, &its.search, &found, build);
        });
        focus_later("kit".into());
    });
    el("div")
        .class("about")
        .child(el("dl").class("aims").children(aims))
        .child(el("ul").class("differs kit").children(parts))
        .children(chosen)
        .child(el("p").class("note").text(&total(&kit)))
        .children((trade.alike > 0).then(|| el("p").class("note").text(&words::alike(&show::count(trade.alike as f64)))))
        .child(chances(&question, &fitted))
        .child(el("p").class("acts").child(fit))
        .maybe(move || is_fitted.get().then(|| el("p").class("found").text(words::IS_FITTED)))
}

/// How likely what was asked fails, worked out while one reads.
fn chances(question: &Question, fitted: &Build) -> El {
    let runner = Runner::<Chances>::new();
    let frame = el("div").class("chances");
    let job = match Chancing::new(plan(), fitted, &question.musts, CHANCES, SEED) {
        Ok(job) if job.inputs().is_empty() => return frame.child(el("p").class("note").text(words::NOTHING_IS_OFF)),
        Ok(job) => job,
        Err(why) => return frame.child(el("p").class("note").text(&Bench::get().look_now(|_, report| why.reason(report.layout())))),
    };
    let job = std::cell::Cell::new(Some(job));
    effect(move |_| {
        if let Some(job) = job.take() {
            runner.start(job);
        }
    });
    let musts = question.musts.clone();
    let told = move || {
        runner.with(|found| {
            let Some(found) = found else { return vec![el("p").class("note").text(words::COUNTING_CHANCES)] };
            let all = words::all_holds(1.0 - found.any.share, found.any.error, &show::count(f64::from(found.samples)));
            let mut each: Vec<(f64, f64, Must)> =
                musts.iter().zip(&found.each).map(|(must, chance)| (chance.share, chance.error, *must)).collect();
            each.retain(|(share, ..)| *share >= TOLD);
            each.order_by(|one, other| other.0.total_cmp(&one.0));
            let line = |(share, error, must): &(f64, f64, Must)| el("li").text(&words::may_fail(&must_words(*must), *share, *error));
            let more = (each.len() > NAMED).then(|| el("li").text(&words::more(each.len() - NAMED)));
            vec![el("p").class("found").text(&all), el("ul").class("differs").children(each.iter().take(NAMED).map(line)).children(more)]
        })
    };
    frame.many(told)
}
