//! The job card: a calculator's inputs, the few that matter most first, the rest by the part of the car one would touch.

use crate::bench::Bench;
use crate::field::Field;
use crate::table::{Rows, columns};
use crate::words;
use leptos::prelude::*;
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
#[component]
pub fn JobCard(calculator: u8) -> impl IntoView {
    let bench = Bench::get();
    let counted: Vec<Id> = inputs(calculator).filter(|&id| spec(id).matters || spec(id).of_the_car).collect();
    let all = counted.len();
    let given = Memo::new(move |_| {
        let own = |&&id: &&Id| bench.build().with(|build| matches!(build.origin(id.into()), Origin::Own | Origin::Part(_)));
        counted.iter().filter(own).count()
    });
    let group = move |(heading, items): Group| {
        let items = items.into_iter().map(move |item| match item {
            Item::Input(id) => view! { <Field place=id.into()/> }.into_any(),
            Item::Table(table) => view! { <Rows calculator table/> }.into_any(),
        });
        view! { <section class="group"><h3>{heading}</h3>{items.collect_view()}</section> }
    };
    view! {
        <section class="card" id="card" aria-labelledby="card-title">
            <h2 id="card-title">
                {words::JOB_CARD}
                {(all > 0).then(|| view! { " " <span class="count" data-key="measured">{move || words::measured(given.get(), all)}</span> })}
            </h2>
            {groups(calculator).into_iter().map(group).collect_view()}
        </section>
    }
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
