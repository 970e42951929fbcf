//! A search among the parts of a shelf from a script.
//!
//! `--slots slave-cylinder,clutch-cover?` (with `?`: may stay empty), `--aims clutch.pedal-force,price:EUR,mass` (with `+`
//! before it: much is better), `--musts "clutch.pedal-left,clutch.pedal-force<=120 N"` (a key alone: no worse than near).

use super::tools::{Asked, done};
use serde_json::{Map, Value, json};
use trialfit_core::build::Build;
use trialfit_core::shelf::{self, At, Currency, Shelf};
use trialfit_core::spec::{Kind, Verdict};
use trialfit_core::tools::combine::{Aim, Chancing, Combine, Must, Search, Trade, What, fit, judged, slots_for};
use trialfit_core::tools::spread::{Chance, SEED};

/// What is asked, as typed; what is not said is taken from the shelf and the build.
#[derive(Default)]
pub(crate) struct Combining {
    /// The shelf's text.
    pub(crate) shelf: Option<String>,
    pub(crate) slots: Option<String>,
    pub(crate) aims: Option<String>,
    pub(crate) musts: Option<String>,
}

/// Samples of each combination of the front: an error of one per cent at most.
const SAMPLES: u32 = 3_000;

/// What people ask most.
const AIMS: &str = "clutch.pedal-force,price:EUR,mass";

impl Combining {
    pub(crate) fn run(&self, asked: &Asked<'_>) -> Result<Value, String> {
        let shelf::Read { shelf, problems } = shelf::read(self.shelf.as_deref().unwrap_or_default()).map_err(|why| why.to_string())?;
        let shelves = [shelf];
        let aims = words(self.aims.as_deref().unwrap_or(AIMS)).map(|word| aim(asked, word)).collect::<Result<Vec<_>, _>>()?;
        let search = match &self.slots {
            None => slots_for(asked.plan, &shelves, &aims),
            Some(slots) => words(slots).map(|word| word.strip_suffix('?').map_or_else(|| Search::filled(word), Search::or_none)).collect(),
        };
        let musts = match &self.musts {
            None => judged(asked.plan, asked.build, &shelves, &search),
            Some(musts) => words(musts).map(|word| must(asked, word)).collect::<Result<_, _>>()?,
        };
        let job = Combine::new(asked.plan, asked.build, &shelves, &search, &aims, &musts).map_err(|why| {
            let told: Vec<String> = core::iter::once(why.to_string()).chain(problems.iter().map(ToString::to_string)).collect();
            told.join(" ")
        })?;
        let found = done(asked.plan, job);
        let key = |must: &Must| asked.layout.key(must.place());
        let failed: Vec<Value> = musts
            .iter()
            .zip(&found.failed)
            .filter(|(_, count)| **count > 0.0)
            .map(|(must, count)| json!({"output": key(must), "combinations": count}))
            .collect();
        let left_out: Vec<Value> =
            found.left_out.iter().map(|(at, place, _)| json!({"part": id(&shelves, *at), "for": asked.layout.key(*place)})).collect();
        Ok(json!({
            "shelf": shelves[0].id,
            "shelf_problems": problems.iter().map(ToString::to_string).collect::<Vec<_>>(),
            "slots": search.iter().map(|slot| slot.slot.as_str()).collect::<Vec<_>>(),
            "aims": aims.iter().map(|aim| name(asked, *aim)).collect::<Vec<_>>(),
            "units": aims.iter().map(|aim| unit(asked, *aim)).collect::<Vec<_>>(),
            "musts": musts.iter().map(key).collect::<Vec<_>>(),
            "combinations": found.combinations, "forbidden": found.forbidden, "worked_out": found.worked_out, "passed": found.passed,
            "not_compared": found.not_compared, "failed": failed, "left_out": left_out,
            "front": found.front.trades().iter().map(|trade| row(asked, &shelves, &search, &musts, trade)).collect::<Vec<_>>(),
        }))
    }
}

pub(crate) fn words(list: &str) -> impl Iterator<Item = &str> {
    list.split(',').map(str::trim).filter(|word| !word.is_empty())
}

fn aim(asked: &Asked<'_>, word: &str) -> Result<Aim, String> {
    let (word, most) = word.strip_prefix('+').map_or((word, false), |word| (word, true));
    let what = match word.split_once(':') {
        _ if word == "mass" => What::Mass,
        Some(("price", letters)) => What::Price(Currency::new(letters).ok_or_else(|| format!("“{letters}” is no currency, such as EUR."))?),
        _ => What::Output(asked.place(word)?),
    };
    Ok(Aim { what, most })
}

fn must(asked: &Asked<'_>, word: &str) -> Result<Must, String> {
    if let Some((key, most)) = word.split_once("<=") {
        let place = asked.place(key.trim())?;
        return Ok(Must::AtMost(place, asked.number(place, most)?));
    }
    if let Some((key, least)) = word.split_once(">=") {
        let place = asked.place(key.trim())?;
        return Ok(Must::AtLeast(place, asked.number(place, least)?));
    }
    Ok(Must::Stand(asked.place(word)?, Verdict::Near))
}

fn name(asked: &Asked<'_>, aim: Aim) -> String {
    match aim.what {
        What::Output(place) => asked.layout.key(place),
        What::Price(currency) => format!("price:{currency}"),
        What::Mass => "mass".into(),
    }
}

fn unit(asked: &Asked<'_>, aim: Aim) -> String {
    match aim.what {
        What::Output(place) if matches!(asked.layout.kind(place.id), Kind::Quantity { .. }) => asked.unit(place).into(),
        What::Output(_) => String::new(),
        What::Price(currency) => currency.to_string(),
        What::Mass => "kg".into(),
    }
}

fn id(shelves: &[Shelf], at: At) -> &str {
    at.of(shelves).map_or("", |part| &part.id)
}

fn row(asked: &Asked<'_>, shelves: &[Shelf], search: &[Search], musts: &[Must], trade: &Trade) -> Value {
    let parts: Map<String, Value> =
        search.iter().zip(&trade.parts).filter_map(|(slot, part)| part.map(|at| (slot.slot.clone(), id(shelves, at).into()))).collect();
    let mut build = asked.build.clone();
    fit(shelves, search, trade, &mut build);
    let chances = chances(asked, &build, musts);
    let link = trialfit_core::share::link::write(&build.into());
    json!({"parts": parts, "figures": trade.figures, "alike": trade.alike, "chances": chances, "link": link})
}

/// How likely each must fails with every tolerance counted; those that never did are left out.
fn chances(asked: &Asked<'_>, build: &Build, musts: &[Must]) -> Value {
    let Ok(job) = Chancing::new(asked.plan, build, musts, SAMPLES, SEED) else { return Value::Null };
    let found = done(asked.plan, job);
    let chance = |chance: &Chance| json!({"share": chance.share, "error": chance.error});
    let each = musts.iter().zip(&found.each).filter(|(_, chance)| chance.share > 0.0);
    let each: Map<String, Value> = each.map(|(must, its)| (asked.layout.key(must.place()), chance(its))).collect();
    json!({"samples": found.samples, "any": chance(&found.any), "each": each})
}
