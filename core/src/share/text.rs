//! What people post: an answer, or the report with how each answer stands, what was given, cautions; the link under it.

use super::link::{self, Link, NOTE};
use super::markup::{Form, Line, Translate, written};
use crate::build::{Build, Origin};
use crate::entry::clean;
use crate::layout::Layout;
use crate::quantity::Length;
use crate::report::{Report, lower_first};
use crate::sentence::Sentence;
use crate::show::{self, System};
use crate::spec::{Follow, Id, Kind, Place, Role, Sense, Spec, TableId, Verdict};
use crate::tolerance::Shape;

/// What is to be written of a build.
#[derive(Clone, Copy, Debug)]
pub struct Post<'a> {
    /// For what kind of place.
    pub form: Form,
    /// The units.
    pub system: System,
    /// Address of the app's page without a fragment; empty where there is none, as on a command line.
    pub page: &'a str,
    /// Whose figures: one calculator's, or all.
    pub calculator: Option<u8>,
    /// Brings its texts into the language it is posted in.
    pub translate: Translate,
}

impl Post<'_> {
    /// An answer with its link.
    #[must_use]
    pub fn answer(&self, label: &str, sentence: &Sentence, link: &Link) -> String {
        let words = format!("{label}: {}", show::sentence(sentence, self.system));
        written(&[Line::Words(words), self.address(link)], self.form, self.translate)
    }

    /// The report of an evaluated build, with its link under it.
    #[must_use]
    pub fn report(&self, link: &Link, report: &Report) -> String {
        let text = Text::new(&link.build, report, self.system);
        let mut lines = Vec::new();
        let all = 0..text.layout().calculators().len() as u8;
        for at in all.filter(|at| self.calculator.is_none_or(|only| only == *at)) {
            text.section(at).write(text.layout().calculators()[usize::from(at)].label, &mut lines);
        }
        text.given(&mut lines);
        // As the link has it.
        let note = clean(&link.note, usize::from(NOTE));
        if !note.is_empty() {
            lines.push(Line::Note(note));
            lines.push(Line::Blank);
        }
        lines.push(Line::Words("Worked out, not tested. Local rules and licensed practice come first.".into()));
        lines.push(self.address(link));
        written(&lines, self.form, self.translate) + "\n"
    }

    fn address(&self, link: &Link) -> Line {
        Line::Address { page: self.page.to_owned(), fragment: link::write(link) }
    }
}

/// The whole report as plain text.
#[must_use]
pub fn report(link: &Link, report: &Report, system: System) -> String {
    Post { form: Form::Plain, system, page: "", calculator: None, translate: str::to_owned }.report(link, report)
}

/// How one calculator stands, in words.
#[derive(Clone, PartialEq, Debug)]
pub struct Section {
    /// The worst of its verdicts; none where nothing is judged.
    pub verdict: Option<Verdict>,
    /// Its answer.
    pub sentence: String,
    /// Judged outputs that are past their limits or near them, a line each.
    pub others: Vec<String>,
    /// Those of which nobody can tell.
    pub unknown: Vec<String>,
    /// Those that are.
    pub within: Vec<String>,
    /// Of those that are not, and those that always stand.
    pub cautions: Vec<&'static str>,
}

impl Section {
    /// Every calculator's, in their order.
    #[must_use]
    pub fn all(build: &Build, report: &Report, system: System) -> Vec<Self> {
        let text = Text::new(build, report, system);
        (0..build.layout().calculators().len() as u8).map(|at| text.section(at)).collect()
    }

    fn write(self, label: &'static str, lines: &mut Vec<Line>) {
        let stands = self.verdict.map_or(String::new(), |verdict| format!(": {}", verdict.word()));
        lines.push(Line::Heading(label, stands));
        lines.push(Line::Words(self.sentence));
        lines.extend(self.others.into_iter().chain(self.unknown).chain(self.within).map(Line::Item));
        lines.extend(self.cautions.into_iter().map(Line::Caution));
        lines.push(Line::Blank);
    }
}

/// What is not as usual in a build, a line each, with the cautions of what was given.
#[must_use]
pub fn given(build: &Build, report: &Report, system: System) -> Vec<Line> {
    let mut lines = Vec::new();
    Text::new(build, report, system).given(&mut lines);
    lines
}

/// So many values of the car that are not known are named; more are counted.
const MOST_MISSING: usize = 8;

struct Text<'a> {
    build: &'a Build,
    usual: Build,
    report: &'a Report,
    system: System,
}

impl<'a> Text<'a> {
    fn new(build: &'a Build, report: &'a Report, system: System) -> Self {
        Self { build, usual: Build::new(build.layout().calculators()), report, system }
    }

    fn layout(&self) -> &Layout {
        self.build.layout()
    }

    /// The answer, every judged output; the cautions of those that are not within, and those that always stand.
    fn section(&self, at: u8) -> Section {
        let calculator = self.layout().calculators()[usize::from(at)];
        let sentence = show::sentence(&(calculator.sentence)(self.build, self.report), self.system);
        let verdict = self.report.worst(self.build, at).map(|(verdict, _)| verdict);
        let mut section = Section { verdict, sentence, others: Vec::new(), unknown: Vec::new(), within: Vec::new(), cautions: Vec::new() };
        let judged = |id: &Id| id.calculator == at && self.layout().spec(*id).is_judged();
        for id in self.layout().ids().filter(judged) {
            let spec = self.layout().spec(id);
            let places: Vec<Place> = self.layout().places_of(id).collect();
            let mut all_within = true;
            for verdict in [Verdict::Beyond, Verdict::Near, Verdict::Unknown, Verdict::Within] {
                let alike = |place: &Place| self.report.verdict(self.build, *place) == verdict;
                let alike: Vec<Place> = places.iter().copied().filter(alike).collect();
                let lines = match verdict {
                    Verdict::Within => &mut section.within,
                    Verdict::Unknown => &mut section.unknown,
                    Verdict::Near | Verdict::Beyond => &mut section.others,
                };
                match alike.as_slice() {
                    [] => continue,
                    [one] => lines.push(self.judged(*one)),
                    // Rows that stand alike need one line, not one each.
                    rows => lines.push(self.judged_rows(id, rows, verdict)),
                }
                all_within &= verdict == Verdict::Within;
            }
            if !all_within && !spec.caution.is_empty() && !section.cautions.contains(&spec.caution) {
                section.cautions.push(spec.caution);
            }
        }
        for caution in calculator.cautions {
            if !section.cautions.contains(caution) {
                section.cautions.push(caution);
            }
        }
        section
    }

    fn judged(&self, place: Place) -> String {
        let word = self.report.verdict(self.build, place).word();
        format!("{}: {}, {word}{}", show::label(self.build, place), self.answer(place), self.against(place))
    }

    /// `Pulleys, wrap: Crank 163°, Alternator 182°, within`.
    fn judged_rows(&self, id: Id, places: &[Place], verdict: Verdict) -> String {
        let label = lower_first(self.layout().spec(id).label);
        let table = self.layout().table_of(id).map_or("", |table| self.layout().table(table).label);
        let against = |place: &Place| if verdict == Verdict::Within { String::new() } else { self.against(*place) };
        let named = |text: String| format!("{table}, {label}: {text}, {}", verdict.word());
        // One reason for all of them is said once, and as a sentence of its own otherwise.
        if let (Verdict::Unknown, [first, rest @ ..]) = (verdict, places) {
            let why = self.answer(*first);
            if rest.iter().all(|place| self.answer(*place) == why) {
                return named(why);
            }
        }
        let after = if verdict == Verdict::Unknown { ":" } else { "" };
        let one = |place: &Place| format!("{}{after} {}{}", show::row_name(self.build, *place), self.answer(*place), against(place));
        named(places.iter().map(one).collect::<Vec<_>>().join(", "))
    }

    fn answer(&self, place: Place) -> String {
        match self.report.value(place) {
            Ok(_) => show::at(self.report, place, self.system).map_or(String::new(), |shown| shown.to_string()),
            Err(why) => {
                let reason = why.reason(self.layout());
                lower_first(reason.trim_end_matches('.'))
            }
        }
    }

    /// The limit that decides, and whether the answer rests on a guess.
    fn against(&self, place: Place) -> String {
        let standing = self.report.standing(self.build, place);
        let mut text = String::new();
        if let Some(limit) = standing.limit {
            let near = limit.near.filter(|_| standing.verdict == Verdict::Near && !standing.estimate);
            let id = near.unwrap_or(limit.beyond);
            if let Ok(mark) = self.report.value(self.layout().beside(id, place)) {
                let word = match limit.sense {
                    Sense::AtMost => "at most",
                    Sense::AtLeast => "at least",
                };
                let kind = if near.is_some() { "better " } else { "" };
                text = format!(" ({kind}{word} {})", self.mark(self.layout().spec(id), mark));
            }
        } else if let (Ok(_), Some(why)) = (self.report.value(place), self.report.undecided(self.build, place)) {
            let reason = why.reason(self.layout());
            text = format!(" ({})", lower_first(reason.trim_end_matches('.')));
        }
        if standing.estimate {
            text.push_str(" (an estimate: some of it is a guess)");
        }
        text
    }

    /// Everything that is not as usual.
    fn given(&self, lines: &mut Vec<Line>) {
        let before = lines.len();
        let layout = self.layout();
        for (calculator, it) in layout.calculators().iter().enumerate() {
            for (table, declared) in it.tables.iter().enumerate() {
                let id = TableId { calculator: calculator as u8, table: table as u8 };
                if self.build.rows(id) != self.usual.rows(id) {
                    let (now, usual) = (self.build.rows(id).len(), self.usual.rows(id).len());
                    let rows = if now == 1 { "row" } else { "rows" };
                    lines.push(Line::Item(format!("{}: {now} {rows} (usual {usual})", declared.label)));
                }
            }
        }
        let not_known = |place: &Place| layout.spec(place.id).of_the_car && self.build.origin(*place) == Origin::Missing;
        let missing = layout.places(Role::Input).filter(not_known).count();
        // What the demo car has tells nobody anything of a car that has nothing of it.
        let of_demo = layout.places(Role::Input).any(|place| layout.spec(place.id).of_the_car && self.build.origin(place) == Origin::Usual);
        for place in layout.places(Role::Input) {
            let value = match self.build.origin(place) {
                Origin::Usual => continue,
                Origin::Missing if missing > MOST_MISSING && not_known(&place) => continue,
                Origin::Missing => "not known".into(),
                Origin::Own => self.own(place),
                Origin::Part(at) => {
                    let part = self.build.parts().get(usize::from(at)).map(ToString::to_string).unwrap_or_default();
                    format!("{} ({part})", self.own(place))
                }
            };
            lines.push(Line::Item(format!("{}: {value}{}", show::label(self.build, place), self.instead_of(place, of_demo))));
            let caution = layout.spec(place.id).caution;
            if !caution.is_empty() {
                lines.push(Line::Caution(caution));
            }
        }
        for (place, given) in self.build.tolerances() {
            let mut line = format!("{}:", show::label(self.build, place));
            if let (Some(half_width), Kind::Quantity { dimension, unit }) = (given.half_width, layout.kind(place.id)) {
                let (dimension, unit) = dimension.difference(unit);
                line.push_str(&format!(" ± {}", show::input(half_width, self.system.unit(dimension, unit))));
            }
            match given.shape {
                Some(Shape::Normal { sigmas }) => line.push_str(&format!(" (normal, ± is {sigmas} sigma)")),
                Some(Shape::Uniform) => line.push_str(" (equally likely anywhere between)"),
                Some(Shape::Triangular) => line.push_str(" (triangular)"),
                None => {}
            }
            lines.push(Line::Item(line));
        }
        if missing > MOST_MISSING {
            lines.push(Line::Item(format!("Not known of the car: {missing} values")));
        }
        if lines.len() > before {
            lines.insert(before, Line::Heading("Given for this car", " (all else is as usual)".into()));
        } else {
            lines.push(Line::Words("Everything is as usual: this is the demo car.".into()));
        }
        lines.push(Line::Blank);
    }

    fn own(&self, place: Place) -> String {
        match self.layout().kind(place.id) {
            Kind::Text(_) => self.build.text(place).to_owned(),
            _ => self.build.own_value(place).map_or(String::new(), |value| self.shown_with_size(self.layout().spec(place.id), value)),
        }
    }

    /// What stood there before, when it can be said.
    fn instead_of(&self, place: Place, of_demo: bool) -> String {
        let spec = self.layout().spec(place.id);
        match (spec.follows, spec.kind, self.usual.own_value(place)) {
            (Follow::The(id), ..) => format!(" (usual: {})", lower_first(self.layout().spec(id).label)),
            (_, Kind::Text(_), _) | (.., None) => String::new(),
            (..) if spec.of_the_car && !of_demo => String::new(),
            (.., Some(usual)) if spec.of_the_car => format!(" (demo car: {})", self.shown(spec, usual)),
            (.., Some(usual)) => format!(" (usual {})", self.shown(spec, usual)),
        }
    }

    /// With the fraction of an inch by which the trade calls it, where it sells sizes.
    fn shown_with_size(&self, spec: &Spec, value: f64) -> String {
        let size = match spec.kind {
            Kind::Quantity { dimension, .. } if *dimension == *Length::DIMENSION && !spec.sizes.is_empty() => {
                show::inch_fraction(Length::from_si(value))
            }
            _ => None,
        };
        let shown = self.shown(spec, value);
        size.map_or(shown.clone(), |size| format!("{shown}, {size}"))
    }

    /// A limit: as it was given, or in other units with the digits of an answer.
    fn mark(&self, spec: &Spec, value: f64) -> String {
        match spec.kind {
            Kind::Quantity { dimension, unit } if self.system.unit(dimension, unit) != unit => {
                show::answer(value, self.system.unit(dimension, unit), 4).to_string()
            }
            _ => self.shown(spec, value),
        }
    }

    fn shown(&self, spec: &Spec, value: f64) -> String {
        let mut shown = show::cell(spec, value, self.system);
        if spec.role == Role::Input && matches!(spec.kind, Kind::Quantity { .. }) {
            shown.number = show::grouped(&shown.number);
        }
        shown.to_string()
    }
}
