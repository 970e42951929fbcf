//! Evaluates a build outside the page, for scripts and checks.
//!
//! `report --method CALCULATOR` prints its method as Markdown; else
//! `report [--json|--text|--keys|--bench N|--sweep INPUT FROM TO N|--solve INPUT OUTPUT TARGET|--spread N [--of LIST]|--combine SHELF_FILE] LINK_OR_FILE`;
//! `-` reads standard input. Exits 2 when it cannot be read.

mod combining;
mod tools;

use combining::Combining;

use std::fs::File;
use std::io::{ErrorKind, Read, Write};
use std::process::ExitCode;
use std::time::Instant;
use tools::Tool;
use trialfit_core::build::{Build, Origin};
use trialfit_core::calculators::ALL;
use trialfit_core::entry::decoded;
use trialfit_core::method;
use trialfit_core::plan::Plan;
use trialfit_core::report::Report;
use trialfit_core::share::link::Link;
use trialfit_core::share::{Unreadable, stored, text};
use trialfit_core::show::{self, System};
use trialfit_core::spec::{Follow, Kind, Place, Role, TableId};
use trialfit_core::tolerance::Tolerance;

const USAGE: &str = "usage: report --method CALCULATOR, or report [--json|--text|--keys|--bench N|--sweep INPUT FROM TO N|--solve INPUT OUTPUT TARGET|--spread N [--of LIST]|\
                     --combine SHELF_FILE [--slots LIST] [--aims LIST] [--musts LIST]] LINK_OR_FILE (- reads standard input)";

/// More than any build has: what is longer is told to be.
const LONGEST: u64 = 4_000_000;

enum Form {
    Json,
    Text,
    Keys,
    Bench(u32),
    Tool(Tool),
}

fn main() -> ExitCode {
    match run() {
        // Whoever reads may have seen enough: nobody is left to be told.
        Ok(output) => match writeln!(std::io::stdout(), "{}", output.trim_end()) {
            Err(why) if why.kind() != ErrorKind::BrokenPipe => {
                tell(&format!("The answer cannot be written: {why}."));
                ExitCode::from(2)
            }
            _ => ExitCode::SUCCESS,
        },
        Err(why) => {
            tell(&why);
            ExitCode::from(2)
        }
    }
}

/// On standard error, if anyone can be told there.
fn tell(what: &str) {
    _ = writeln!(std::io::stderr(), "{what}");
}

fn run() -> Result<String, String> {
    let mut form = Form::Text;
    let mut source = None;
    let mut combine: Option<Combining> = None;
    let mut arguments = std::env::args_os().skip(1).map(|argument| argument.to_string_lossy().into_owned());
    while let Some(argument) = arguments.next() {
        match argument.as_str() {
            "--help" | "-h" => return Ok(USAGE.into()),
            "--json" => form = Form::Json,
            "--text" => form = Form::Text,
            "--keys" => form = Form::Keys,
            "--bench" => {
                let times = count(arguments.next());
                form = Form::Bench(times.ok_or("--bench wants how many times to evaluate, such as --bench 100000.")?);
            }
            "--method" => return method(&arguments.next().ok_or("--method wants a calculator, such as --method clutch.")?),
            "--sweep" => {
                let [input, from, to, most] = [(); 4].map(|()| arguments.next());
                let sweep =
                    input.zip(from).zip(to).zip(count(most)).map(|(((input, from), to), most)| Tool::Sweep { input, from, to, most });
                form = Form::Tool(
                    sweep.ok_or("--sweep wants an input, from, to and how many points, such as --sweep clutch.slave-bore 16 26 100.")?,
                );
            }
            "--solve" => {
                let [input, output, target] = [(); 3].map(|()| arguments.next());
                let solve = input.zip(output).zip(target).map(|((input, output), target)| Tool::Solve { input, output, target });
                form = Form::Tool(solve.ok_or(
                    "--solve wants an input, an output and its target, such as --solve clutch.slave-bore clutch.pedal-force 120.",
                )?);
            }
            "--spread" => {
                let samples = count(arguments.next()).ok_or("--spread wants how many samples, such as --spread 10000.")?;
                form = Form::Tool(Tool::Spread { samples, of: None });
            }
            "--of" => {
                let list = arguments.next().ok_or("--of wants outputs, parted by commas.")?;
                match &mut form {
                    Form::Tool(Tool::Spread { of, .. }) => *of = Some(list),
                    _ => return Err(format!("--of comes after --spread; {USAGE}")),
                }
            }
            "--combine" => {
                let file = arguments.next().ok_or("--combine wants a shelf file, such as --combine public/demo-shelf.json.")?;
                let shelf = File::open(&file).and_then(text_of).map_err(|why| format!("{file} cannot be read: {why}."))?;
                combine = Some(Combining { shelf: Some(shelf), ..combine.unwrap_or_default() });
            }
            "--slots" | "--aims" | "--musts" => {
                let list = arguments.next().ok_or_else(|| format!("{argument} wants a list, parted by commas."))?;
                let combine = combine.get_or_insert_default();
                match argument.as_str() {
                    "--slots" => combine.slots = Some(list),
                    "--aims" => combine.aims = Some(list),
                    _ => combine.musts = Some(list),
                }
            }
            unknown if unknown.starts_with('-') && unknown != "-" => return Err(format!("{unknown} is not known; {USAGE}")),
            _ if source.is_some() => return Err(format!("One build at a time; {USAGE}")),
            _ => source = Some(argument),
        }
    }
    if let Some(combine) = combine {
        if combine.shelf.is_none() {
            return Err(format!("--slots, --aims and --musts go with --combine; {USAGE}"));
        }
        form = Form::Tool(Tool::Combine(combine));
    }
    if let Form::Keys = form {
        return Ok(keys());
    }
    let source = source.ok_or(USAGE)?;
    let given = content(&source)?;
    let (stored, problems) = stored::read(given.as_deref().unwrap_or(&source)).map_err(|why| match why {
        Unreadable::NotALink { .. } if given.is_none() => format!("{why} Nor is there a file of that name."),
        _ => why.to_string(),
    })?;
    let problems: Vec<String> = problems.iter().map(ToString::to_string).collect();
    let plan = Plan::default();
    let mut report = Report::new(&stored.link.build);
    plan.evaluate(&stored.link.build, &mut report);
    Ok(match form {
        Form::Json => json(&stored.name, &stored.link, &report, &problems),
        Form::Text | Form::Keys => {
            problems.iter().for_each(|problem| tell(problem));
            text::report(&stored.link, &report, stored.link.units.unwrap_or_default())
        }
        Form::Bench(times) => bench(&plan, &stored.link.build, &mut report, times),
        Form::Tool(tool) => {
            problems.iter().for_each(|problem| tell(problem));
            tool.run(&plan, &stored.link.build)?
        }
    })
}

/// The method of a calculator as Markdown.
fn method(key: &str) -> Result<String, String> {
    let known = || ALL.iter().map(|it| it.key).collect::<Vec<_>>().join(", ");
    let at = ALL.iter().position(|it| it.key == key).ok_or_else(|| format!("{key} is not a calculator; there are {}.", known()))?;
    let sections = method::method(&Plan::default(), ALL, at as u8, System::Metric);
    Ok(method::markdown(&format!("{}: method, Trialfit {}", ALL[at].label, env!("CARGO_PKG_VERSION")), &sections))
}

/// A count of at least one.
fn count(typed: Option<String>) -> Option<u32> {
    typed.and_then(|typed| typed.parse().ok()).filter(|&count| count > 0)
}

/// What stands in a file, a pipe or on standard input; none where the argument is no name of these.
fn content(source: &str) -> Result<Option<String>, String> {
    if source == "-" {
        return text_of(std::io::stdin()).map(Some).map_err(|why| format!("Standard input cannot be read: {why}."));
    }
    let text = match File::open(source) {
        Ok(file) => text_of(file),
        Err(why) if why.kind() == ErrorKind::PermissionDenied => Err(why),
        Err(_) => return Ok(None),
    };
    text.map(Some).map_err(|why| format!("{source} cannot be read: {why}."))
}

fn text_of(from: impl Read) -> std::io::Result<String> {
    let mut bytes = Vec::new();
    from.take(LONGEST).read_to_end(&mut bytes)?;
    Ok(decoded(&bytes))
}

fn bench(plan: &Plan, build: &Build, report: &mut Report, times: u32) -> String {
    for _ in 0..times / 10 + 1 {
        plan.evaluate(std::hint::black_box(build), report);
    }
    let start = Instant::now();
    for _ in 0..times {
        plan.evaluate(std::hint::black_box(build), report);
        std::hint::black_box(&report);
    }
    format!("{:.0} ns per evaluation", start.elapsed().as_nanos() as f64 / f64::from(times))
}

fn json(name: &str, link: &Link, report: &Report, problems: &[String]) -> String {
    use serde_json::{Map, Value, json};
    let (build, layout) = (&link.build, link.build.layout());
    let entry = |place: Place| {
        let mut entry = Map::new();
        let value = report.value(place);
        match layout.kind(place.id) {
            Kind::Quantity { dimension, .. } => {
                entry.insert("value".into(), value.map_or(Value::Null, Into::into));
                entry.insert("unit".into(), dimension.units[0].symbol.into());
            }
            Kind::Choice(choices) => {
                let chosen = value.ok().and_then(|value| choices.get(value as usize));
                entry.insert("value".into(), value.map_or(Value::Null, Into::into));
                entry.insert("unit".into(), "".into());
                entry.insert("choice".into(), chosen.map_or(Value::Null, |choice| choice.key.into()));
            }
            Kind::Text(_) => {
                entry.insert("text".into(), build.text(place).into());
            }
        }
        if let Some(why) = report.undecided(build, place) {
            entry.insert("reason".into(), why.reason(layout).into());
        }
        let caution = layout.spec(place.id).caution;
        if !caution.is_empty() {
            entry.insert("caution".into(), caution.into());
        }
        entry
    };
    let outputs: Map<String, Value> = layout
        .places(Role::Output)
        .map(|place| {
            let mut entry = entry(place);
            let standing = report.standing(build, place);
            entry.insert("verdict".into(), standing.verdict.word().into());
            if standing.estimate {
                entry.insert("estimate".into(), true.into());
            }
            (layout.key(place), entry.into())
        })
        .collect();
    let inputs: Map<String, Value> = layout
        .places(Role::Input)
        .map(|place| {
            let mut entry = entry(place);
            let origin = match build.origin(place) {
                Origin::Usual => "usual".into(),
                Origin::Own => "own".into(),
                Origin::Missing => "not known".into(),
                Origin::Part(at) => format!("part {}", build.parts().get(usize::from(at)).map(ToString::to_string).unwrap_or_default()),
            };
            entry.insert("origin".into(), origin.into());
            if let Some(tolerance) = report.tolerance(place).ok().filter(|tolerance| *tolerance != Tolerance::NONE) {
                entry.insert("pm".into(), tolerance.half_width.into());
                entry.insert("dist".into(), tolerance.shape.key().into());
            }
            if let Some(id) = build.following(place) {
                let row = place.row.filter(|_| layout.table_of(id).is_some());
                entry.insert("follows".into(), layout.key(Place { id, row }).into());
            }
            (layout.key(place), entry.into())
        })
        .collect();
    let cautions: Map<String, Value> = layout.calculators().iter().map(|it| (it.key.into(), it.cautions.into())).collect();
    let held: Vec<String> = link.held.iter().map(|held| trialfit_core::share::link::differing(build, held)).collect();
    let parts: Vec<String> = build.parts().iter().map(ToString::to_string).collect();
    let asked = link.asked.as_ref().map(|asked| {
        let settings = asked.items(layout).into_iter().map(|(key, value)| (key.to_owned(), value.into()));
        let sought = link.sought.items(layout).into_iter().map(|(key, value)| (key, value.into()));
        core::iter::once(("tool".to_owned(), asked.tool.key().into())).chain(settings).chain(sought).collect::<Map<String, Value>>()
    });
    let whole = json!({
        "name": name, "parts": parts, "units": link.units.map(System::write), "shelf": link.shelf,
        "held": held, "asked": asked, "outputs": outputs, "inputs": inputs, "cautions": cautions, "problems": problems, "note": link.note, "show": link.show,
    });
    serde_json::to_string_pretty(&whole).unwrap_or_default()
}

/// One line for each input, output and table: key, role, unit, range, default, meaning, parted by tabs.
fn keys() -> String {
    let build = Build::default();
    let layout = build.layout();
    let mut lines = vec!["key\trole\tunit\trange\tdefault\tmeaning".to_owned()];
    for (calculator, it) in layout.calculators().iter().enumerate() {
        for (table, declared) in it.tables.iter().enumerate() {
            let id = TableId { calculator: calculator as u8, table: table as u8 };
            let rows: Vec<String> = build.rows(id).iter().map(|row| row.0.to_string()).collect();
            let (key, range) = (layout.table_key(id), format!("{} to {} rows", declared.least, declared.most));
            lines.push(format!("{key}\ttable\t\t{range}\trows {}\t{}", rows.join("."), declared.help));
        }
    }
    for id in layout.ids() {
        let spec = layout.spec(id);
        let key = layout.key(id.into());
        let key = match key.rsplit_once('.') {
            Some((table, column)) if spec.table.is_some() => format!("{table}.ROW.{column}"),
            _ => key,
        };
        let (unit, range) = match spec.kind {
            Kind::Quantity { unit, .. } => {
                let [lowest, highest] = spec.possible;
                let range = if lowest.is_finite() && highest.is_finite() { format!("{lowest} to {highest}") } else { String::new() };
                (unit.symbol, range)
            }
            Kind::Choice(choices) => ("", choices.iter().map(|choice| choice.key).collect::<Vec<_>>().join(" or ")),
            Kind::Text(most) => ("", format!("words, at most {most} characters")),
        };
        let (role, default) = match spec.role {
            Role::Input => ("input", default(&build, id)),
            Role::Output => ("output", String::new()),
        };
        let meaning = if spec.help.is_empty() { spec.label.into() } else { format!("{}. {}", spec.label, spec.help) };
        lines.push(format!("{key}\t{role}\t{unit}\t{range}\t{default}\t{meaning}"));
    }
    lines.join("\n")
}

/// The default of an input; for a column, that of each row a new build has.
fn default(build: &Build, id: trialfit_core::spec::Id) -> String {
    let layout = build.layout();
    let spec = layout.spec(id);
    let one = |place: Place| match (build.following(place), build.own_value(place)) {
        (Some(_), _) | (None, None) if matches!(spec.follows, Follow::The(_) | Follow::ByChoice(..)) => {
            build.following(place).map_or("not given".into(), |id| format!("follows {}", layout.key(id.into())))
        }
        _ if matches!(spec.kind, Kind::Text(_)) => build.text(place).to_owned(),
        (_, None) => "not given".into(),
        (_, Some(value)) => match spec.kind {
            Kind::Choice(choices) => choices.get(value as usize).map_or("", |choice| choice.key).into(),
            _ => show::cell(spec, value, System::Metric).number,
        },
    };
    let places: Vec<Place> = layout.places_of(id).collect();
    match places.as_slice() {
        [Place { row: None, .. }] => one(id.into()),
        rows => rows.iter().map(|&place| format!("{}: {}", place.row.map_or(0, |row| row.0), one(place))).collect::<Vec<_>>().join(", "),
    }
}
