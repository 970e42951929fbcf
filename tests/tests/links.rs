//! Links: the corpus of every version that shipped, round trips to the bit, and anything at all as a link.

use proptest::prelude::*;
use trialfit_core::build::{Build, Fitted, Origin};
use trialfit_core::calculators::{self, car};
use trialfit_core::share::link::{self, Asked, Link, Opened, Sought, Tool};
use trialfit_core::share::{LinkProblem, Unreadable, stored};
use trialfit_core::shelf::Currency;
use trialfit_core::spec::{Kind, Place, Role, RowId, TableId};
use trialfit_core::tolerance::Shape;
use trialfit_core::tools::combine::{Aim, Must, Search, What};
use trialfit_tests::laws;

#[test]
fn links_of_every_version_open_as_written_beside_them() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/links");
    let mut failures = Vec::new();
    let mut walked = 0;
    for file in std::fs::read_dir(folder).expect("the folder of links") {
        let path = file.expect("an entry of the folder").path();
        let text = std::fs::read_to_string(&path).expect("a readable file");
        for block in text.split("\n\n") {
            let lines: Vec<&str> = block.lines().filter(|line| !line.starts_with('#') && !line.is_empty()).collect();
            let Some((first, expected)) = lines.split_first() else { continue };
            walked += 1;
            if let Err(why) = check(first, expected) {
                failures.push(format!("{first}\n  {why}"));
            }
        }
    }
    assert!(walked > 20, "only {walked} links were found");
    assert!(failures.is_empty(), "{}", failures.join("\n"));
}

fn check(first: &str, expected: &[&str]) -> Result<(), String> {
    let text = first.strip_prefix("open ").ok_or("a block begins with open")?;
    let opened = match (link::read(text), expected) {
        (Err(why), [line]) if *line == format!("fails {why}") => return Ok(()),
        (Err(why), _) => return Err(format!("fails: {why}")),
        (Ok(opened), _) => opened,
    };
    let Opened { link, problems } = opened;
    let build = &link.build;
    let said: Vec<String> = expected.iter().filter_map(|line| line.strip_prefix("says ")).map(Into::into).collect();
    // A number and its unit are kept together by a space that editors do not show.
    let problems: Vec<String> = problems.iter().map(|problem| problem.to_string().replace(['\u{A0}', '\u{202F}'], " ")).collect();
    if said != problems {
        return Err(format!("says\n{}", problems.join("\n")));
    }
    for line in expected.iter().filter(|line| !line.starts_with("says ")) {
        let (mut word, mut rest) = line.split_once(' ').unwrap_or((line, ""));
        let mut build = build;
        if word == "held" {
            let (at, what) = rest.split_once(' ').ok_or("held which?")?;
            build = link.held.get(at.parse::<usize>().map_err(|_| "held which?")? - 1).ok_or("not held")?;
            (word, rest) = what.split_once(' ').unwrap_or((what, ""));
        }
        let layout = build.layout();
        let place = |key: &str| layout.place_by_key(key).filter(|place| layout.find(*place).is_some()).ok_or(format!("no {key}"));
        let (key, value) = rest.split_once(" = ").unwrap_or((rest, ""));
        let holds = match word {
            "reads" => {
                let place = place(key)?;
                let wanted = layout.spec(place.id).to_cell(value.parse().map_err(|_| format!("{value} is no number"))?);
                build.own_value(place).is_some_and(|got| (got - wanted).abs() <= 1e-14 * wanted.abs())
            }
            "pm" => {
                let place = place(key)?;
                let Kind::Quantity { dimension, unit } = layout.kind(place.id) else { return Err(format!("{key} is no quantity")) };
                let wanted = dimension.difference(unit).1.to_si(value.parse().map_err(|_| format!("{value} is no number"))?);
                build.tolerance(place).half_width.is_some_and(|got| (got - wanted).abs() <= 1e-14 * wanted.abs())
            }
            "dist" => {
                let shape = match (value, value.strip_prefix("normal-").map(str::parse)) {
                    ("uniform", _) => Shape::Uniform,
                    (_, Some(Ok(sigmas))) => Shape::Normal { sigmas },
                    _ => return Err(format!("{value} is no shape")),
                };
                build.tolerance(place(key)?).shape == Some(shape)
            }
            "words" => build.text(place(key)?) == value,
            "usual" => build.origin(place(key)?) == Origin::Usual,
            "gone" => build.origin(place(key)?) == Origin::Missing && build.own_value(place(key)?).is_none(),
            "rows" => {
                let table = layout.table_by_key(key).ok_or(format!("no table {key}"))?;
                build.rows(table).iter().map(|row| row.0.to_string()).collect::<Vec<_>>().join(".") == value
            }
            "holds" => link.held.len().to_string() == rest,
            "untold" => build.tolerance(place(key)?) == trialfit_core::tolerance::Given::default(),
            "parts" => build.parts().iter().map(|part| &*part.id).collect::<Vec<_>>().join(" ") == rest,
            "asked" => link.asked.is_some_and(|asked| {
                let items = asked.items(layout).into_iter().map(|(key, value)| (key.to_owned(), value));
                let items = items.chain(link.sought.items(layout)).map(|(key, value)| format!("{key}={value}"));
                core::iter::once(asked.tool.key().to_owned()).chain(items).collect::<Vec<_>>().join(" ") == rest
            }),
            "note" => link.note == rest,
            "units" => link.units.is_some_and(|units| units.write() == rest),
            "show" => link.show == rest,
            "shelf" => link.shelf == rest,
            _ => return Err(format!("{word} is not known here")),
        };
        if !holds {
            return Err(format!("not so: {line}"));
        }
    }
    Ok(())
}

#[test]
fn a_link_in_a_mails_own_writing_is_whole() {
    // Quoted-printable, RFC 2045, 6.7: lines end in = where they were broken, = itself is =3D.
    let opened =
        link::read("See https://x.example/#1.1/clutch.slave-bo=\r\nre=3D20/car.name=3DBlue/car.idle=\n=3D900/en=\nd and so on").unwrap();
    assert_eq!((opened.problems.len(), opened.link.build.text(car::NAME.id.into())), (0, "Blue"));
    assert_eq!(link::write(&opened.link), "1.1/car.name=Blue/car.idle=900/clutch.slave-bore=20/end");
    // Words may begin so themselves.
    let words = "1.1/wiring.circuits.1.from=3D-box/end";
    assert_eq!(link::write(&link::read(words).unwrap().link), words);
    let mut long = Build::default();
    long.set_text(car::NAME.id.into(), &"no two words alike ".repeat(3)).expect("fits");
    for place in long.layout().clone().places(Role::Input) {
        let value = long.own_value(place).unwrap_or(1.0) * 1.000_123_4;
        _ = long.set(place, value);
    }
    let packed = link::write(&long.clone().into());
    assert!(packed.starts_with("1z.1/"), "{packed}");
    let broken = packed.as_bytes().chunks(70).map(|line| String::from_utf8_lossy(line)).collect::<Vec<_>>().join("=\n");
    let opened = link::read(&broken).expect("a link");
    assert!(opened.problems.is_empty() && opened.link.build == long);
    // Wrapped by hand behind an equals sign, it was no mail's writing.
    let opened = link::read("#1.1/car.idle=\n900/end").expect("a link");
    assert_eq!(link::write(&opened.link), "1.1/car.idle=900/end");
}

/// Each mark costs what it is long, not what follows: a million of them would never be read else.
#[test]
fn a_link_quoted_over_several_lines_is_whole() {
    // Mail that answers puts "> " before each line (RFC 3676, 4.5).
    let opened = link::read("> https://x.example/#1.1/clutch.slave-\r\n> bore=20/car.id\n>> le=900/end\n> so far").unwrap();
    assert_eq!(opened.problems, []);
    assert_eq!(opened.link.build, link::read("1.1/clutch.slave-bore=20/car.idle=900/end").unwrap().link.build);
}

#[test]
fn a_link_alone_may_have_marks_and_addresses_in_its_note() {
    for note in ["see https:%2F%2Fexample.org", "bore #2 of us", "https:%2F%2Fexample.org%2F#x"] {
        let text = format!("1.1/clutch.slave-bore=25mm/note={note}/end");
        let Opened { link, .. } = link::read(&text).unwrap_or_else(|why| panic!("{text}: {why}"));
        assert_eq!(link.build.own_value(calculators::clutch::SLAVE_BORE.id.into()), Some(0.025), "{text}");
        assert!(!link.note.is_empty());
    }
}

#[test]
fn a_flood_of_marks_is_read_in_one_go() {
    for mark in ["#", "#1", "#1.1", "#(", "%23"] {
        let flood = mark.repeat(1_000_000 / mark.len());
        assert!(link::read(&flood).is_err(), "{mark}");
        let opened = link::read(&format!("{}#1.1/clutch.slave-bore=19/end", &flood[..flood.len() / 2]));
        assert_eq!(opened.map(|opened| opened.problems), Ok(Vec::new()), "{mark}");
    }
}

/// One thing somebody does to a build.
#[derive(Clone, Debug)]
enum Act {
    Set { at: prop::sample::Index, share: f64, digits: Option<u8> },
    Bits { at: prop::sample::Index, bits: u64 },
    Words { at: prop::sample::Index, words: String },
    GiveOrTake { at: prop::sample::Index, share: f64, shape: Option<u8> },
    Forget(prop::sample::Index),
    Rows { at: prop::sample::Index, rows: Vec<u16> },
    Add(prop::sample::Index),
    Back(prop::sample::Index),
    Fit { slot: u8, sets: Vec<(prop::sample::Index, f64)> },
    Remove(prop::sample::Index),
}

fn acts() -> impl Strategy<Value = Act> {
    let index = any::<prop::sample::Index>;
    prop_oneof![
        4 => (index(), 0.0..=1.0, prop::option::of(0_u8..6)).prop_map(|(at, share, digits)| Act::Set { at, share, digits }),
        2 => (index(), any::<u64>()).prop_map(|(at, bits)| Act::Bits { at, bits }),
        1 => (index(), ".{0,20}").prop_map(|(at, words)| Act::Words { at, words }),
        1 => (index(), 0.0..=1.0, prop::option::of(0_u8..4)).prop_map(|(at, share, shape)| Act::GiveOrTake { at, share, shape }),
        1 => index().prop_map(Act::Forget),
        1 => (index(), prop::collection::vec(0_u16..30, 0..20)).prop_map(|(at, rows)| Act::Rows { at, rows }),
        1 => index().prop_map(Act::Add),
        1 => index().prop_map(Act::Back),
        1 => (0_u8..5, prop::collection::vec((index(), 0.0..=1.0), 0..4)).prop_map(|(slot, sets)| Act::Fit { slot, sets }),
        1 => index().prop_map(Act::Remove),
    ]
}

/// Any build that a person can make, and some more.
fn builds() -> impl Strategy<Value = Build> {
    (any::<bool>(), prop::collection::vec(acts(), 0..60)).prop_map(|(cleared, acts)| {
        let calculators = calculators::ALL;
        let mut build = if cleared { Build::cleared(calculators) } else { Build::new(calculators) };
        for act in acts {
            perform(&mut build, act);
        }
        build
    })
}

/// A build and what is held beside it: each made of it by a few more acts, or one by itself.
fn with_held() -> impl Strategy<Value = Link> {
    let held = prop_oneof![prop::collection::vec(acts(), 0..30).prop_map(Ok), builds().prop_map(Err)];
    (builds(), prop::collection::vec(held, 0..=link::MOST_HELD)).prop_map(|(build, held)| {
        let from = |how: Result<Vec<Act>, Build>| {
            how.map_or_else(
                |other| other,
                |acts| {
                    let mut held = build.clone();
                    acts.into_iter().for_each(|act| perform(&mut held, act));
                    held
                },
            )
        };
        Link { held: held.into_iter().map(from).collect(), ..build.clone().into() }
    })
}

/// A build and a tool to open it at, set to anything the tool can be set to.
fn asking() -> impl Strategy<Value = Link> {
    let index = any::<prop::sample::Index>;
    let picks = (prop::collection::vec(index(), 8), prop::collection::vec(0.0..=1.0, 8), prop::collection::vec(any::<bool>(), 8));
    (builds(), 0..Tool::ALL.len(), picks).prop_map(|(build, tool, (at, shares, yes))| {
        let layout = build.layout().clone();
        let is_quantity = |place: &Place| matches!(layout.kind(place.id), Kind::Quantity { .. });
        let [inputs, outputs] = [Role::Input, Role::Output].map(|role| layout.places(role).filter(is_quantity).collect::<Vec<_>>());
        let within = |place: Place, share: f64| {
            let [low, high] = layout.spec(place.id).possible.map(|end| end.clamp(-1e6, 1e6));
            layout.spec(place.id).settled(layout.spec(place.id).to_cell(low + share * (high - low)))
        };
        let [turn, across] = [0, 1].map(|which: usize| *at[which].get(&inputs));
        let watch = *at[2].get(&outputs);
        let figure = |which: usize, place: Place| yes[which].then(|| within(place, shares[which]));
        let tool = Tool::ALL[tool];
        let blank = Asked::of(tool);
        let asked = match tool {
            Tool::Sweep => Asked { turn: Some(turn), watch: Some(watch), range: [figure(0, turn), figure(1, turn)], ..blank },
            Tool::Map => {
                let (range, across_range) = ([figure(0, turn), figure(1, turn)], [figure(2, across), figure(3, across)]);
                Asked { turn: Some(turn), range, across: Some(across), across_range, ..blank }
            }
            Tool::Solve => Asked { turn: yes[4].then_some(turn), watch: Some(watch), target: figure(5, watch), ..blank },
            Tool::Spread => Asked { watch: yes[6].then_some(watch), ..blank },
            Tool::Combine | Tool::Beside | Tool::Parts => blank,
        };
        let aims = [What::Output(watch), What::Price(Currency::new("GBP").expect("letters")), What::Mass];
        let slots = [Search::filled("slave-cylinder"), Search::or_none("cover-2"), Search::filled("cap")];
        let judged = [3, 4].map(|which: usize| *at[which].get(&outputs));
        let sought = Sought {
            slots: slots.into_iter().zip(&yes).filter(|(_, yes)| **yes).map(|(slot, _)| slot).collect(),
            aims: aims.into_iter().zip(&yes[3..]).map(|(what, most)| Aim { what, most: *most }).skip(usize::from(yes[7])).collect(),
            limits: vec![Must::AtMost(judged[0], within(judged[0], shares[6])), Must::AtLeast(judged[1], within(judged[1], shares[7]))],
            waived: if judged[0] == watch { vec![watch] } else { vec![judged[0], watch] },
        };
        let sought = if tool == Tool::Combine { sought } else { Sought::default() };
        Link { asked: Some(asked), sought, ..build.into() }
    })
}

/// Refusals are of no account here: the build keeps what it had.
fn perform(build: &mut Build, act: Act) {
    let places: Vec<Place> = build.layout().places(Role::Input).collect();
    let tables: Vec<TableId> = (0_u8..)
        .zip(build.layout().calculators())
        .flat_map(|(calculator, it)| (0..it.tables.len() as u8).map(move |table| TableId { calculator, table }))
        .collect();
    match act {
        Act::Set { at, share, digits } => {
            let place = *at.get(&places);
            let spec = build.layout().spec(place.id);
            let value = match spec.kind {
                Kind::Choice(choices) => (share * choices.len() as f64).floor(),
                _ => {
                    let [lowest, highest] = spec.possible.map(|end| end.clamp(-1e9, 1e9));
                    let number = lowest + share * (highest - lowest);
                    let scale = digits.map_or(0.0, |digits| [1.0, 10.0, 100.0, 1e3, 1e4, 1e5][usize::from(digits)]);
                    spec.settled(spec.to_cell(if scale > 0.0 { (number * scale).round() / scale } else { number }))
                }
            };
            _ = build.set(place, value);
        }
        Act::Bits { at, bits } => _ = build.set(*at.get(&places), f64::from_bits(bits)),
        Act::Words { at, words } => _ = build.set_text(*at.get(&places), &words),
        Act::GiveOrTake { at, share, shape } => {
            let place = *at.get(&places);
            let [lowest, highest] = build.layout().spec(place.id).possible;
            let shapes = [Shape::Normal { sigmas: 2.0 }, Shape::Normal { sigmas: 0.5 + 9.5 * share }, Shape::Uniform, Shape::Triangular];
            _ = build.set_shape(place, shape.map(|at| shapes[usize::from(at)]));
            _ = build.set_half_width(place, Some(share * share * share * (highest - lowest)).filter(|_| shape != Some(1)));
        }
        Act::Forget(at) => build.forget(*at.get(&places)),
        Act::Rows { at, rows } => _ = build.set_rows(*at.get(&tables), &rows.into_iter().map(RowId).collect::<Vec<_>>()),
        Act::Back(at) => build.put_back(*at.get(&places)),
        Act::Fit { slot, sets } => {
            let fitted =
                Fitted { shelf: "s".into(), slot: format!("slot-{slot}").into(), id: format!("p{}", sets.len()).into(), name: "".into() };
            let Ok(part) = build.fit(fitted) else { return };
            for (at, share) in sets {
                let place = *at.get(&places);
                let spec = build.layout().spec(place.id);
                let [lowest, highest] = spec.possible.map(|end| end.clamp(-1e9, 1e9));
                let value = match spec.kind {
                    Kind::Choice(choices) => (share * choices.len() as f64).floor(),
                    _ => spec.settled(spec.to_cell(lowest + share * (highest - lowest))),
                };
                _ = build.set_from_part(place, value, part);
            }
        }
        Act::Remove(at) if build.parts().is_empty() => _ = at,
        Act::Remove(at) => build.remove_part(at.index(build.parts().len()) as u16),
        Act::Add(at) => _ = build.add_row(*at.get(&tables)),
    }
}

/// The letters a link may be made of.
fn survives(text: &str) -> bool {
    text.bytes().all(|byte| byte.is_ascii_alphanumeric() || b"-./=".contains(&byte)) && text.ends_with("/end") && !text.contains("--")
}

/// What a forum that knows Markdown, smart punctuation included, makes of a post; only its words.
fn through_markdown(post: &str) -> String {
    let words = pulldown_cmark::Parser::new_ext(post, pulldown_cmark::Options::all());
    words.filter_map(|event| if let pulldown_cmark::Event::Text(text) = event { Some(text.into_string()) } else { None }).collect()
}

proptest! {
    // Each case is a whole build with dozens of changes.
    #![proptest_config(laws(64))]
    #[test]
    fn a_link_in_a_post_stays_whole(build in builds(), note in ".{0,60}") {
        let link = Link { note, ..build.into() };
        for text in [link::plain(&link), link::packed(&link)] {
            let address = format!("https://example.org/app/#{text}");
            for post in [format!("See {address}."), format!("({address})"), format!("- *mine*: {address}, yours?"), format!("<{address}>!")] {
                let mut finder = linkify::LinkFinder::new();
                finder.kinds(&[linkify::LinkKind::Url]);
                let found: Vec<&str> = finder.links(&post).map(|link| link.as_str()).collect();
                prop_assert_eq!(&found, &[address.as_str()]);
                prop_assert!(through_markdown(&post).contains(&address), "{}", through_markdown(&post));
            }
        }
    }

    #[test]
    fn every_build_comes_back_to_the_bit_with_what_is_held(link in with_held(), note in ".{0,60}") {
        let link = Link { note: trialfit_core::entry::clean(&note, 500), ..link };
        for text in [link::plain(&link), link::packed(&link), link::write(&link)] {
            prop_assert!(survives(&text), "{}", text);
            let opened = link::read(&text).map_err(|why| TestCaseError::fail(why.to_string()))?;
            prop_assert_eq!(&opened.problems, &vec![], "{}", &text);
            prop_assert!(opened.link == link, "{}", &text);
        }
    }

    #[test]
    fn what_a_tool_is_set_to_comes_back(link in asking()) {
        for text in [link::plain(&link), link::packed(&link)] {
            prop_assert!(survives(&text), "{}", text);
            let opened = link::read(&text).map_err(|why| TestCaseError::fail(why.to_string()))?;
            prop_assert_eq!(&opened.problems, &vec![], "{}", &text);
            prop_assert!(opened.link == link, "{} {:?} {:?}", &text, &opened.link.asked, &opened.link.sought);
        }
    }

    #[test]
    fn every_build_comes_back_from_the_device(build in builds(), name in "[^\\p{C}\\s]{0,60}", revision in any::<u64>()) {
        let kept = stored::Stored { name, revision, link: build.into() };
        let kept = stored::Stored { name: trialfit_core::entry::clean(&kept.name, stored::NAME), ..kept };
        let (read, problems) = stored::read(&stored::write(&kept)).map_err(|why| TestCaseError::fail(why.to_string()))?;
        prop_assert_eq!(problems, vec![]);
        prop_assert!(read == kept);
    }

    #[test]
    fn a_link_cut_anywhere_keeps_its_beginning(link in with_held(), at in any::<prop::sample::Index>()) {
        let whole = link::plain(&link);
        let cut = &whole[..at.index(whole.len())];
        if let Ok(opened) = link::read(cut) {
            let only_cut = |problem: &LinkProblem| matches!(problem, LinkProblem::Truncated | LinkProblem::NoSuchRow { .. });
            prop_assert!(opened.problems.iter().all(only_cut), "{:?}", opened.problems);
            prop_assert!(opened.problems.contains(&LinkProblem::Truncated), "{}", cut);
            let kept = link::plain(&opened.link);
            let items: Vec<&str> = whole.split('/').collect();
            prop_assert!(kept.split('/').all(|item| items.contains(&item)), "{} from {}", kept, cut);
        } else {
            prop_assert!(!cut.contains('/'));
        }
    }

    #[test]
    fn a_packed_link_cut_or_altered_never_panics(build in builds(), at in any::<prop::sample::Index>(), letter in any::<char>()) {
        let link = Link::from(build);
        let whole = link::packed(&link);
        let at = at.index(whole.len());
        if let Ok(cut) = link::read(&whole[..at]) {
            prop_assert!(!cut.problems.is_empty() || cut.link == link, "cut at {}", at);
        }
        _ = link::read(&format!("{}{letter}{}", &whole[..at], &whole[at + 1..]));
    }

}

proptest! {
    #![proptest_config(laws(256))]

    #[test]
    fn nothing_at_all_panics(text in any::<String>(), bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        _ = link::read(&text);
        _ = stored::read(&text);
        let bytes = String::from_utf8_lossy(&bytes);
        _ = link::read(&bytes);
        _ = link::read(&format!("1.1/{bytes}/end"));
        _ = link::read(&format!("1z.1/{}/end", trialfit_core::share::base62::encode(bytes.as_bytes())));
        _ = stored::read(&format!("Trialfit build {bytes}"));
    }

    #[test]
    fn nothing_like_a_link_panics_or_changes_once_opened(text in "1\\.1(/(car|clutch|front-drive)\\.[a-z.-]{1,14}[0-9]{0,2}=[a-z0-9.=-]{0,12}|/b[2-4]|/show=(sweep|map|solve|spread|combine|parts)|/(slots|empty)=[ab.]{1,3}|/aim\\.[1-4]=(least|most)\\.(clutch\\.pedal-force|price\\.EUR|mass|x)|/limit\\.1=at-(most|least)\\.clutch\\.pedal-force|/limit\\.1\\.is=-?[0-9]{0,3}|/waive\\.[12]=clutch\\.(margin|slave-bore)|/(turn|watch|across)=clutch.(slave-bore|master-bore|pedal-force)|/(from|to|across-from|target)=-?[0-9]{0,3}(e[0-9]{0,3})?|/[a-z0-9=.]{0,6}){0,8}(/end)?") {
        if let Ok(opened) = link::read(&text) {
            let again = link::read(&link::write(&opened.link)).map_err(|why| TestCaseError::fail(why.to_string()))?;
            prop_assert_eq!(&again.problems, &vec![]);
            prop_assert!(again.link == opened.link);
        }
    }
}

#[test]
fn long_builds_are_packed_and_short_ones_are_not() {
    let mut build = Build::default();
    assert!(link::write(&build.clone().into()).starts_with("1.1/"));
    let places: Vec<Place> = build.layout().places(Role::Input).collect();
    for place in places {
        let value = build.own_value(place).unwrap_or(1.0) * 1.000_123_4;
        _ = build.set(place, value);
    }
    let link = Link::from(build);
    if link::plain(&link).len() > 1500 {
        let text = link::write(&link);
        assert!(text.starts_with("1z.1/") && text.len() < link::plain(&link).len(), "{text}");
    }
}

#[test]
fn a_car_of_ones_own_has_a_link_as_short_as_what_is_known_of_it() {
    let mut build = Build::cleared(calculators::ALL);
    assert_eq!(link::write(&build.clone().into()), "1.1/of-the-car=gone/end");
    let mass = car::MASS.id.into();
    build.set(mass, 640.0).expect("a mass");
    assert_eq!(link::write(&build.clone().into()), "1.1/of-the-car=gone/car.mass=640/end");
    build.put_back(mass);
    let text = link::write(&build.clone().into());
    assert_eq!(text, "1.1/of-the-car=gone/car.mass=follow/end");
    assert!(link::read(&text).expect("a link").link.build == build);
}

#[test]
fn a_flood_is_refused_or_cut_in_little_time() {
    assert_eq!(link::read(&"1.1/".repeat(1_000_000)), Err(Unreadable::TooLong));
    let opened = link::read(&format!("1.1/{}end", "car.idel=3/".repeat(80_000))).expect("long, yet a link");
    assert!(opened.problems.contains(&LinkProblem::TooManyItems { most: 10_000 }));
    assert!(opened.problems.len() < 50, "{}", opened.problems.len());
    // A megabyte of nothing, packed into a kilobyte.
    let bomb = miniz_oxide::deflate::compress_to_vec_zlib(&vec![b'a'; 10_000_000], 9);
    let text = format!("1z.1/{}/end", trialfit_core::share::base62::encode(&bomb));
    let opened = link::read(&text).expect("what fits is read");
    assert!(opened.problems.contains(&LinkProblem::Damaged), "{:?}", opened.problems);
}

#[test]
fn a_damaged_store_keeps_the_rest() {
    let text = "Trialfit build 1\nname: Blue\u{202E} one\nrevision: many\nmass\n1.1/car.idle=900/car.mas=3/end\n";
    let (kept, problems) = stored::read(text).expect("a link is left");
    assert_eq!((kept.name.as_str(), kept.revision), ("Blue one", 0));
    let said: Vec<String> = problems.iter().map(ToString::to_string).collect();
    assert_eq!(
        said,
        [
            "The line “revision: many” could not be read; it was left out.",
            "The line “mass” could not be read; it was left out.",
            "“car.mas” is no input this version knows; it was left out. Did you mean “car.mass”?",
        ]
    );
    assert_eq!(stored::read("Trialfit build 1\nname: x\n"), Err(Unreadable::Damaged));
    let (kept, problems) = stored::read("Trialfit build 1\nrows named: car.gears=9/car.cogs=3/car.gears=x\n1.1/end").expect("a link");
    let said: Vec<String> = problems.iter().map(ToString::to_string).collect();
    assert_eq!(said, ["car.cogs=3", "car.gears=x"].map(|item| format!("The line “{item}” could not be read; it was left out.")));
    assert_eq!(kept.link.build.last_name(car::GEARS), RowId(9));
    let later = stored::read("Trialfit build 7\n1.1/end").expect("still a build");
    assert_eq!(later.1, [stored::StoredProblem::LaterVersion(7)]);
}

#[test]
fn every_name_in_a_link_is_made_of_its_letters() {
    let word = |word: &str| {
        !word.is_empty()
            && word.bytes().all(|byte| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'-')
            && !word.contains("--")
    };
    let build = Build::default();
    let layout = build.layout();
    for calculator in layout.calculators() {
        assert!(
            word(calculator.key)
                && !["end", "note", "show", "shelf", "part", "turn", "across", "watch", "from", "to", "target", "b2", "b3", "b4"]
                    .contains(&calculator.key),
            "{}",
            calculator.key
        );
        for table in calculator.tables {
            assert!(word(table.key), "{}", table.key);
            let single = calculator.specs.iter().find(|spec| spec.table.is_none() && spec.key == table.key);
            assert!(single.is_none(), "{}.{} is a table and an input", calculator.key, table.key);
        }
    }
    for id in layout.ids() {
        let spec = layout.spec(id);
        assert!(word(spec.key) && !["pm", "dist", "own", "part"].contains(&spec.key), "{}", spec.key);
        let same = layout.ids().filter(|other| other.calculator == id.calculator && layout.spec(*other).table == spec.table);
        assert_eq!(same.filter(|other| layout.spec(*other).key == spec.key).count(), 1, "{} stands twice", spec.key);
        match spec.kind {
            Kind::Choice(choices) => {
                for choice in choices {
                    assert!(word(choice.key) && !["gone", "follow"].contains(&choice.key), "{} of {}", choice.key, spec.key);
                }
            }
            // Written after a number that has no exact decimal in its own unit.
            Kind::Quantity { dimension, .. } => {
                let letters = dimension.units[0].also[0];
                assert!(
                    letters.bytes().all(|byte| byte.is_ascii_alphanumeric()) && !letters.starts_with(|first: char| first.is_ascii_digit())
                );
            }
            Kind::Text(_) => {}
        }
    }
}
