//! The job card: a calculator's inputs, the few that matter most first, the rest by the part of the car one would touch.

use crate::bench::Bench;
use crate::dom::{El, el};
use crate::field::field;
use crate::table::{columns, rows};
use crate::words;
use trialfit_core::build::Origin;
use trialfit_core::calculators::ALL;
use trialfit_core::spec::{Id, Role, TableId};

/// One line of the card.
#[derive(Clone, Copy)]
enum Item {
    Input(Id),
    Table(TableId),
}

/// A heading and what stands under it.
type Group = (&'static str, Vec<Item>);

/// The inputs of a calculator.
pub fn job_card(calculator: u8) -> El {
    let bench = Bench::get();
    let counted: Vec<Id> = inputs(calculator).filter(|&id| spec(id).matters || spec(id).of_the_car).collect();
    let all = counted.len();
    let given = move || {
        let own = |&&id: &&Id| matches!(bench.origin(id.into()), Origin::Own | Origin::Part(_));
        words::measured(counted.iter().filter(own).count(), all)
    };
    let count = (all > 0).then(|| el("span").class("count").set("data-key", "measured").says(given));
    let title = el("h2").id("card-title").text(words::JOB_CARD).text(" ").children(count);
    let card = el("section").class("card").id("card").set("aria-labelledby", "card-title").children(standing(calculator)).child(title);
    let part = move |item: Item| match item {
        Item::Input(id) => field(id.into()),
        Item::Table(table) => rows(calculator, table),
    };
    let group =
        move |(heading, items): Group| el("section").class("group").child(el("h3").text(heading)).children(items.into_iter().map(part));
    groups(calculator).into_iter().fold(card, |card, it| card.later(move || group(it)))
}

/// Cautions that stand whatever the figures say: next below the answer on a phone, at the top on a desk.
fn standing(calculator: u8) -> Option<El> {
    let cautions = ALL[usize::from(calculator)].cautions;
    let list = || el("ul").class("standing").set("aria-label", words::CAUTIONS);
    (!cautions.is_empty()).then(|| list().children(cautions.iter().map(|caution| el("li").class("caution").text(caution))))
}

fn spec(id: Id) -> &'static trialfit_core::spec::Spec {
    crate::bench::spec_of(id.into())
}

/// Single inputs, in the order of declaration.
fn inputs(calculator: u8) -> impl Iterator<Item = Id> {
    let specs = ALL[usize::from(calculator)].specs;
    let ids = (0..specs.len()).map(move |ordinal| Id { calculator, ordinal: ordinal as u8 });
    ids.filter(|&id| spec(id).role == Role::Input && spec(id).table.is_none())
}

/// Groups in the order in which they are first named; a table stands where its first input column does.
fn groups(calculator: u8) -> Vec<Group> {
    let specs = ALL[usize::from(calculator)].specs;
    let first: Vec<Item> = inputs(calculator).filter(|&id| spec(id).matters).map(Item::Input).collect();
    let mut groups: Vec<Group> = if first.is_empty() { Vec::new() } else { vec![(words::MATTERS_MOST, first)] };
    let mut add = |heading: &'static str, item: Item| {
        let heading = if heading.is_empty() { words::OTHER } else { heading };
        match groups.iter_mut().find(|(other, _)| *other == heading) {
            Some((_, items)) => items.push(item),
            None => groups.push((heading, vec![item])),
        }
    };
    for (ordinal, declared) in specs.iter().enumerate().filter(|(_, spec)| spec.role == Role::Input) {
        let id = Id { calculator, ordinal: ordinal as u8 };
        match declared.table {
            None if declared.matters => {}
            None => add(declared.group, Item::Input(id)),
            Some(table) if columns(calculator, table, Role::Input).first() == Some(&id) => add(declared.group, Item::Table(table)),
            Some(_) => {}
        }
    }
    groups
}
