//! The method of a calculator, from its declarations: what it asks, takes, works out and leaves out, each with its source.
//! One description, for the page and as Markdown.

mod equations;

use crate::calculators::Calculator;
use crate::layout::Layout;
use crate::plan::{Line, Plan};
use crate::quantity::Unit;
use crate::report::lower_first;
use crate::show::{self, System};
use crate::spec::{Follow, Id, Kind, Role, Sense, Source, Spec};
use equations::{Explained, Term, explained};

/// A part of it under a heading.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Its heading.
    pub title: String,
    /// What stands in it.
    pub entries: Vec<Entry>,
}

/// One thing said.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Entry {
    /// What it is about: an input's label and unit; empty where the lines speak for themselves.
    pub name: String,
    /// As a book prints it; none where it is no equation.
    pub equation: Option<&'static Line>,
    /// What its letters stand for.
    pub letters: Vec<Letter>,
    /// Sentences.
    pub lines: Vec<String>,
}

/// A letter of an equation.
#[derive(Clone, Debug, PartialEq)]
pub struct Letter {
    /// `d_p`.
    pub letter: &'static str,
    /// Its unit; empty for a pure number.
    pub unit: &'static str,
    /// What it stands for; empty for nothing known.
    pub means: String,
}

/// The method of the calculator with this number.
#[must_use]
pub fn method(plan: &Plan, calculators: &'static [&'static Calculator], calculator: u8, system: System) -> Vec<Section> {
    let Some(it) = calculators.get(usize::from(calculator)) else { return Vec::new() };
    let about = About { layout: &Layout::new(calculators), calculator, system };
    let said = |words: &[&str]| words.iter().map(|words| Entry { lines: vec![(*words).to_owned()], ..Entry::default() }).collect();
    let mut sections = vec![section("What it answers", said(&[it.question]))];
    let inputs = about.of(Role::Input);
    let mut groups: Vec<String> = Vec::new();
    for &id in &inputs {
        let group = about.group(id);
        if !groups.contains(&group) {
            groups.push(group);
        }
    }
    for group in groups {
        let of_group = inputs.iter().filter(|&&id| about.group(id) == group).map(|&id| about.input(id)).collect();
        sections.push(section(&format!("Given: {}", lower_first(&group)), of_group));
    }
    for (name, lines) in explained(plan, calculators, it) {
        let entries = lines.iter().map(|line| about.equation(line, it)).collect();
        sections.push(section(&format!("Worked out: {name}"), entries));
    }
    sections.push(section("Answers and their limits", about.of(Role::Output).into_iter().map(|id| about.output(id)).collect()));
    sections.push(section("Cautions", said(it.cautions)));
    sections.push(section("What it leaves out", said(it.leaves_out)));
    sections.push(section("Sources", about.sources(&sections)));
    sections.retain(|section| !section.entries.is_empty());
    sections
}

fn section(title: &str, entries: Vec<Entry>) -> Section {
    Section { title: title.to_owned(), entries }
}

/// The same as Markdown, under a title.
#[must_use]
pub fn markdown(title: &str, sections: &[Section]) -> String {
    let mut text = format!("# {title}\n");
    for section in sections {
        text.push_str(&format!("\n## {}\n\n", section.title));
        for entry in &section.entries {
            let head = match entry.equation {
                Some(line) => format!("`{}`", line.equation),
                None if entry.name.is_empty() => String::new(),
                None => format!("**{}.**", entry.name),
            };
            let letter = |it: &Letter| format!("`{}`{}: {}.", it.letter, in_unit(it.unit), it.means);
            let parts = core::iter::once(head).chain(entry.letters.iter().map(letter)).chain(entry.lines.iter().cloned());
            text.push_str(&format!("- {}\n", parts.filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" ")));
        }
    }
    text
}

/// The word by which links open a calculator's method, from the calculator's key.
#[must_use]
pub fn key_of(calculator: &str) -> String {
    format!("{calculator}.whole-method")
}

/// `, mm`.
#[must_use]
pub fn in_unit(unit: &str) -> String {
    if unit.is_empty() { String::new() } else { format!(", {unit}") }
}

struct About<'a> {
    layout: &'a Layout,
    calculator: u8,
    system: System,
}

impl About<'_> {
    fn of(&self, role: Role) -> Vec<Id> {
        self.layout.ids().filter(|id| id.calculator == self.calculator && self.layout.spec(*id).role == role).collect()
    }

    /// The table an input is a column of, or the part of the car it belongs to.
    fn group(&self, id: Id) -> String {
        let spec = self.layout.spec(id);
        match self.layout.table_of(id) {
            Some(table) => self.layout.table(table).label.to_owned(),
            None if spec.group.is_empty() => "other".to_owned(),
            None => spec.group.to_owned(),
        }
    }

    fn label(&self, id: Id) -> String {
        let label = self.layout.spec(id).label;
        if id.calculator == self.calculator {
            return label.to_owned();
        }
        let calculator = self.layout.calculators()[usize::from(id.calculator)];
        format!("{label} ({})", lower_first(calculator.label))
    }

    /// `Slave bore, mm`.
    fn name(&self, spec: &Spec) -> String {
        let unit = match spec.kind {
            Kind::Quantity { dimension, unit } => self.system.unit(dimension, unit).symbol,
            Kind::Choice(_) | Kind::Text(_) => "",
        };
        format!("{}{}", spec.label, in_unit(unit))
    }

    /// A number given in the spec's unit, in the reader's.
    fn number(&self, spec: &Spec, number: f64) -> String {
        match spec.kind {
            Kind::Quantity { dimension, unit } => {
                show::grouped(&show::input(unit.to_si(number), self.system.unit(dimension, unit)).to_string())
            }
            Kind::Choice(_) | Kind::Text(_) => String::new(),
        }
    }

    fn range(&self, spec: &Spec, [lowest, highest]: [f64; 2]) -> Option<String> {
        match (lowest.is_finite(), highest.is_finite()) {
            (true, true) => Some(format!("{} to {}", self.number(spec, lowest), self.number(spec, highest))),
            (true, false) => Some(format!("at least {}", self.number(spec, lowest))),
            (false, true) => Some(format!("at most {}", self.number(spec, highest))),
            (false, false) => None,
        }
    }

    fn input(&self, id: Id) -> Entry {
        let spec = self.layout.spec(id);
        let mut lines = vec![spec.help.to_owned()];
        match spec.kind {
            Kind::Quantity { .. } => {
                lines.extend(self.range(spec, spec.possible).map(|range| format!("Possible: {range}.")));
                lines.extend(self.range(spec, spec.usual).map(|range| format!("Usually: {range}.")));
            }
            Kind::Choice(choices) => {
                lines.push(format!("One of: {}.", choices.iter().map(|choice| choice.label).collect::<Vec<_>>().join(", ")));
            }
            Kind::Text(_) => {}
        }
        lines.push(match (spec.follows, spec.kind) {
            (Follow::The(target), _) => format!("Unless given: {}.", lower_first(&self.label(target))),
            (Follow::ByChoice(column, _), _) => format!("Unless given: by {}.", lower_first(&self.label(column))),
            (Follow::Nothing, Kind::Text(_)) => String::new(),
            (Follow::Nothing, _) if spec.default.is_nan() => "Unless given: not known.".to_owned(),
            (Follow::Nothing, _) => {
                let source = if spec.source == Source::Definition { String::new() } else { format!(" ({})", spec.source) };
                format!("Unless given: {}{source}.", self.usual(spec))
            }
        });
        lines.push(spec.caution.to_owned());
        lines.retain(|line| !line.is_empty());
        Entry { name: self.name(spec), lines, ..Entry::default() }
    }

    fn usual(&self, spec: &Spec) -> String {
        match spec.kind {
            Kind::Choice(choices) => choices.get(spec.default as usize).map_or("", |choice| choice.label).to_owned(),
            _ => self.number(spec, spec.default),
        }
    }

    fn output(&self, id: Id) -> Entry {
        let spec = self.layout.spec(id);
        let mut lines = vec![spec.help.to_owned()];
        lines.extend(self.layout.table_of(id).map(|table| format!("For each row of: {}.", lower_first(self.layout.table(table).label))));
        for limit in spec.limits.iter().flatten() {
            let mark = |id: Id| {
                let mark = self.layout.spec(id);
                match (mark.follows, mark.default.is_nan()) {
                    (Follow::Nothing, false) => format!("{}, {} ({})", lower_first(&self.label(id)), self.usual(mark), mark.source),
                    _ => lower_first(&self.label(id)),
                }
            };
            let (word, past) = match limit.sense {
                Sense::AtMost => ("At most", "above"),
                Sense::AtLeast => ("At least", "below"),
            };
            let near = limit.near.map_or_else(String::new, |near| format!("; near {past} {}", mark(near)));
            lines.push(format!("{word} {}{near}.", mark(limit.beyond)));
        }
        if let Kind::Choice(choices) = spec.kind {
            let each = choices.iter().enumerate().map(|(at, choice)| match spec.verdicts.get(at) {
                Some(verdict) => format!("{} ({})", choice.label, verdict.word()),
                None => choice.label.to_owned(),
            });
            lines.push(format!("One of: {}.", each.collect::<Vec<_>>().join(", ")));
        }
        if !spec.rests_on.is_empty() {
            let labels: Vec<String> = spec.rests_on.iter().map(|&id| lower_first(&self.label(id))).collect();
            lines.push(format!("A guess while nobody gave {}.", labels.join(", ")));
        }
        if let Some((input, choice, on)) = spec.rests_on_while
            && let Kind::Choice(choices) = self.layout.kind(input)
        {
            let (choice, on) = (choices.get(usize::from(choice)).map_or("", |choice| choice.label), lower_first(&self.label(on)));
            lines.push(format!("A guess while nobody gave {on} and “{}” is “{choice}”.", self.label(input)));
        }
        if spec.estimate {
            lines.push("An estimate by its method.".to_owned());
        }
        if let Some((input, choice)) = spec.estimate_while
            && let Kind::Choice(choices) = self.layout.kind(input)
        {
            let choice = choices.get(usize::from(choice)).map_or("", |choice| choice.label);
            lines.push(format!("An estimate where “{}” is “{choice}”.", self.label(input)));
        }
        lines.push(spec.caution.to_owned());
        lines.retain(|line| !line.is_empty());
        Entry { name: self.name(spec), lines, ..Entry::default() }
    }

    fn equation(&self, it: &Explained, calculator: &Calculator) -> Entry {
        let line = it.line;
        let labels = |ids: &[Id]| ids.iter().map(|&id| self.label(id)).collect::<Vec<_>>().join("; ");
        let told = |letter: &str| calculator.letters.iter().find(|(told, _)| *told == letter).map(|(_, means)| (*means).to_owned());
        let term = |(&(letter, unit), term): (&(&'static str, &'static Unit), &Term)| {
            let means = match told(letter).filter(|_| term.undeclared || term.ids.is_empty()) {
                Some(told) => told,
                None if !term.ids.is_empty() => labels(&term.ids),
                None if term.above => "from a line above".to_owned(),
                None => String::new(),
            };
            Letter { letter, unit: unit.symbol, means }
        };
        let mut letters: Vec<Letter> = line.terms.iter().zip(&it.terms).map(term).collect();
        let mut lines = vec![format!("Source: {}.", line.source)];
        if !it.result.is_empty() {
            let means = labels(&it.result);
            match sides(line.equation).0.filter(|left| !left.contains(' ')) {
                Some(letter) => letters.insert(0, Letter { letter, unit: line.unit.symbol, means }),
                None => lines.insert(0, format!("Gives: {means}{}.", in_unit(line.unit.symbol))),
            }
        }
        Entry { name: String::new(), equation: Some(line), letters, lines }
    }

    /// Every source named, once.
    fn sources(&self, sections: &[Section]) -> Vec<Entry> {
        let specs = self.layout.calculators()[usize::from(self.calculator)].specs.iter();
        let given = specs.filter(|spec| spec.role == Role::Input && !spec.default.is_nan()).map(|spec| spec.source);
        let equations = sections.iter().flat_map(|section| &section.entries).filter_map(|entry| Some(entry.equation?.source));
        let mut named: Vec<String> = Vec::new();
        for source in
            given.chain(equations).filter(|source| !matches!(source, Source::Definition | Source::CommonPractice | Source::Judgement))
        {
            let source = source.to_string();
            if !named.contains(&source) {
                named.push(source);
            }
        }
        named.into_iter().map(|source| Entry { lines: vec![source], ..Entry::default() }).collect()
    }
}

/// What stands left of an equation's first sign of equality, and the rest from that sign on.
#[must_use]
pub fn sides(equation: &str) -> (Option<&str>, &str) {
    match equation.find(['=', '≈']) {
        Some(at) => (Some(equation[..at].trim()), &equation[at..]),
        None => (None, equation),
    }
}
