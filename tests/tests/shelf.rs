//! Shelves: what is read and what is said of the rest, choosing and removing, the kit list, and the shelf in links.

use proptest::prelude::*;
use trialfit_core::build::{Build, Origin};
use trialfit_core::calculators::{car, clutch};
use trialfit_core::quantity::{inches, kilograms, millimetres};
use trialfit_core::share::link::{self, Link};
use trialfit_core::shelf::{self, Currency, Fault, Kit, Known, Name, Read, Shelf};
use trialfit_core::spec::Place;
use trialfit_tests::laws;

fn demo() -> &'static str {
    include_str!("../../public/demo-shelf.json")
}

fn shelf(parts: &str) -> String {
    format!(
        r#"{{"trialfit-shelf":1,"id":"ours","name":"Ours","slots":[{{"id":"slave","name":"Slave cylinder"}},{{"id":"spigot","name":"Spigot bearing in the crankshaft"}},{{"id":"cam","name":"Camshaft"}}],"parts":[{parts}]}}"#
    )
}

#[track_caller]
fn sound(parts: &str) -> Shelf {
    let Read { shelf, problems } = shelf::read(&shelf(parts)).expect("a shelf");
    assert_eq!(problems, []);
    shelf
}

fn said(parts: &str) -> Vec<String> {
    shelf::read(&shelf(parts)).expect("a shelf").problems.iter().map(ToString::to_string).collect()
}

fn kit(shelf: &Shelf, build: &Build) -> Kit {
    shelf::kit(core::slice::from_ref(shelf), build)
}

fn choose(shelf: &Shelf, build: &mut Build, id: &str) {
    let part = &shelf.parts[shelf.find(id).expect("on the shelf")];
    assert_eq!(shelf.choose(part, build), []);
}

#[test]
fn values_are_read_as_fields_read_them() {
    let shelf = sound(
        r#"{"id":"s78","name":"Slave 7/8","slot":"slave","mass":"2 lb","price":{"amount":"48,50","currency":"eur"},"stock":"two weeks",
            "link":"https://example.com/s78","sets":{"clutch.slave-bore":"7/8 in","clutch.fork-ratio":2,"clutch.hose":"braided"},"cautions":["Bleed it."]}"#,
    );
    let part = &shelf.parts[0];
    let place = |id: trialfit_core::spec::Id| Place::from(id);
    assert!(part.sets.contains(&(place(clutch::SLAVE_BORE.id), inches(0.875).si())));
    assert!(part.sets.contains(&(place(clutch::FORK_RATIO.id), 2.0)));
    assert_eq!(
        (part.mass.map(|mass| mass.si()), part.price.map(|price| price.to_string())),
        (Some(2.0 * 0.453_592_37), Some("48.50 EUR".into()))
    );
    let mut build = Build::default();
    choose(&shelf, &mut build, "s78");
    assert_eq!(build.origin(clutch::SLAVE_BORE.id.into()), Origin::Part(0));
    assert_eq!(build.parts()[0].to_string(), "Slave 7/8");
}

#[test]
fn what_is_typed_over_a_parts_value_gives_way_to_it_again() {
    let shelf = sound(r#"{"id":"s78","name":"Slave 7/8","slot":"slave","sets":{"clutch.slave-bore":"7/8 in"}}"#);
    let (bore, ratio): (Place, Place) = (clutch::SLAVE_BORE.id.into(), clutch::FORK_RATIO.id.into());
    let mut build = Build::default();
    choose(&shelf, &mut build, "s78");
    for place in [bore, ratio] {
        build.set(place, 0.02).or_else(|_| build.set(place, 2.0)).expect("in range");
    }
    let fitted = core::slice::from_ref(&shelf);
    let mut without = build.clone();
    shelf::put_back(fitted, &mut build, bore);
    shelf::put_back(fitted, &mut build, ratio);
    assert_eq!((build.origin(bore), build.own_value(bore)), (Origin::Part(0), Some(inches(0.875).si())));
    assert_eq!(build.origin(ratio), Origin::Usual);
    // Taken away, it leaves what is usual.
    build.remove_part(0);
    assert_eq!(build, Build::default());
    shelf::put_back(&[], &mut without, bore);
    assert_eq!(without.origin(bore), Origin::Usual, "its shelf is not at hand");
}

#[test]
fn a_price_is_read_with_its_marks_wherever_they_are_plain() {
    for (amount, price) in [
        (r#""1,234.50""#, "1234.50 EUR"),
        (r#""1.234,50""#, "1234.50 EUR"),
        (r#""1 234,5""#, "1234.50 EUR"),
        (r#""1,234,567""#, "1234567.00 EUR"),
        (r#""1234.567""#, "1234.567 EUR"),
        (r#""0.125""#, "0.125 EUR"),
        (r#""999999.999""#, "999999.999 EUR"),
        // A number of JSON has one mark alone.
        ("1.234", "1.234 EUR"),
        ("0", "0.00 EUR"),
    ] {
        let shelf = sound(&format!(r#"{{"id":"p","name":"P","slot":"slave","price":{{"amount":{amount},"currency":"EUR"}}}}"#));
        assert_eq!(shelf.parts[0].price.map(|price| price.to_string()).as_deref(), Some(price), "{amount}");
    }
}

/// The schema allows it, and programs write it.
#[test]
fn null_is_no_price_and_no_mass() {
    let shelf = sound(r#"{"id":"p","name":"P","slot":"slave","price":null,"mass":null,"removes":[{"name":"Old one","mass":null}]}"#);
    let part = &shelf.parts[0];
    assert_eq!((part.price, part.mass, part.removes[0].mass), (None, None, None));
}

#[test]
fn what_is_wrong_is_said_by_part_and_the_rest_loads() {
    for (part, expected) in [
        (
            r#""sets":{"clutch.salve-bore":22}"#,
            "P: “clutch.salve-bore” is no input this version knows; it is not set. Did you mean “clutch.slave-bore”?",
        ),
        (r#""sets":{"clutch.pedal-force":22}"#, "P: “clutch.pedal-force” is not set: it is worked out, not given."),
        (
            r#""sets":{"clutch.slave-bore":"wide"}"#,
            "P: “clutch.slave-bore” is not set: “wide” is not a number. Write one, with its unit if you like: 12.5 mm.",
        ),
        (r#""sets":{"clutch.slave-bore":900}"#, "P: “clutch.slave-bore” is not set: 900 mm is outside 8 mm to 60 mm."),
        (r#""sets":{"front-drive.ribs":6.4}"#, "P: “front-drive.ribs” is not set: “6.4” is not a whole number, and this is a count."),
        (r#""sets":{"clutch.slave-bore":[22]}"#, "P: “clutch.slave-bore” is not set: it wants a number, or a text such as one types."),
        (
            r#""sets":{"clutch.slave-bore":22,"clutch.slave-bore":23}"#,
            "P: It sets “clutch.slave-bore” more than once; the first was taken.",
        ),
        (r#""sets":{"clutch.hose":"glass"}"#, "P: “clutch.hose” is not set: “glass” is none of rubber, braided."),
        (r#""sets":{"car.name":"Blue"}"#, "P: “car.name” is not set: it holds words, which no part sets."),
        (
            r#""price":{"amount":"free","currency":"EUR"}"#,
            "P: “free” is no price: a number of at most three decimals, such as 48.50. It has none now.",
        ),
        (
            r#""price":{"amount":-3,"currency":"EUR"}"#,
            "P: “-3” is no price: a number of at most three decimals, such as 48.50. It has none now.",
        ),
        (
            r#""price":{"amount":3.00001,"currency":"EUR"}"#,
            "P: “3.00001” is no price: a number of at most three decimals, such as 48.50. It has none now.",
        ),
        (
            r#""price":{"amount":1234.56789,"currency":"EUR"}"#,
            "P: “1234.56789” is no price: a number of at most three decimals, such as 48.50. It has none now.",
        ),
        (
            r#""price":{"amount":"1,234","currency":"USD"}"#,
            "P: “1,234” may be thousands or decimals: write thousands without a mark, such as 1234.00. It has no price now.",
        ),
        (r#""price":{"amount":3,"currency":"euro"}"#, "P: “euro” is no currency: three letters, such as EUR. It has no price now."),
        (r#""price":48"#, "P: What stands in “price” does not belong there; it was left out."),
        (r#""mass":"22 mm""#, "P: Its mass is no mass: mm is a unit of length; this wants a mass, such as 22 kg."),
        (r#""mass":-2"#, "P: Its mass is no mass: it must be nothing or more, and less than ten tonnes."),
        (
            r#""link":"javascript:alert(1)""#,
            "P: “javascript:alert(1)” is no link: https://…, or a path on this app's own host. It was left out.",
        ),
        (
            r#""link":"//elsewhere.example/x""#,
            "P: “//elsewhere.example/x” is no link: https://…, or a path on this app's own host. It was left out.",
        ),
        (
            r#""link":"http://example.com""#,
            "P: “http://example.com” is no link: https://…, or a path on this app's own host. It was left out.",
        ),
        (r#""colour":"red""#, "P 1: “colour” is nothing this version knows; it was left out."),
        (r#""stock":"a","stock":"b""#, "P 1: “stock” stands more than once; the first was taken."),
        (r#""rules":[{}]"#, "P: A rule of it names nothing; it was left out."),
        (r#""rules":[{"needs":["p"]}]"#, "P: A rule names the part itself; that name was left out."),
        (r#""rules":[{"needs":["gasket"]}]"#, "P: A rule names “gasket”, which is no part or slot of this shelf."),
        (r#""rules":[{"only-with":["cam"]}]"#, "P: “only-with” names the slot “cam”, which forbids nothing; that name was left out."),
        (r#""rules":[{"needs":["spigot"]}]"#, "P: Its rules can never hold, whatever else is chosen."),
    ] {
        let text =
            format!(r#"{{"id":"p","name":"P","slot":"slave",{part}}},{{"id":"q","name":"Q","slot":"cam","sets":{{"car.idle":900}}}}"#);
        // The part's own name once it is known, else its number: `Part 1` is worded `P 1` above.
        let found: Vec<String> = said(&text).into_iter().map(|line| line.replace("Part 1:", "P 1:").replace('\u{a0}', " ")).collect();
        assert_eq!(found, [expected], "{part}");
        let read = shelf::read(&shelf(&text)).expect("a shelf").shelf;
        assert_eq!((read.parts.len(), read.parts[1].sets.len()), (2, 1), "{part}");
    }
}

#[test]
fn ids_are_one_of_a_kind() {
    let of = |id: &str| format!(r#"{{"id":"{id}","name":"P","slot":"slave"}}"#);
    assert_eq!(said(&[of("p"), of("p")].join(",")), ["Part 2: “p” is the id of another already; this one was left out."]);
    assert_eq!(said(&of("cam")), ["Part 1: “cam” is the id of another already; this one was left out."]);
    for id in ["P", "a--b", "-a", "a.b", "ä"] {
        assert_eq!(
            said(&of(id)),
            [format!("Part 1: “{id}” is no id: small letters, digits and single hyphens, at most 40. It was left out.")]
        );
    }
    assert_eq!(said(r#"{"id":"p","slot":"slave"}"#), ["p: It has no name; it was left out."]);
    assert_eq!(said(r#"{"id":"p","name":"P"}"#), ["P: It has no slot; it was left out."]);
    assert_eq!(said(r#"{"id":"p","name":"P","slot":"belt"}"#), ["P: “belt” is not among the slots; it was added to them."]);
    assert_eq!(said("7"), ["Part 1: It is no entry in braces; it was left out."]);
}

#[test]
fn no_shelf_at_all() {
    for text in ["", "[]", "{}", "{\"trialfit-shelf\":0}", "null", "{\"a\":", "{\"trialfit-shelf\":\"1\"}"] {
        assert!(shelf::read(text).is_err(), "{text}");
    }
    let deep = "[".repeat(100_000);
    assert!(shelf::read(&deep).is_err());
    assert!(shelf::read(&format!("{{\"trialfit-shelf\":1,\"parts\":[{deep}")).is_err());
}

#[test]
fn circles_of_needs_and_contradictions_are_found() {
    let part = |id: &str, slot: &str, rules: &str| format!(r#"{{"id":"{id}","name":"{id}","slot":"{slot}","rules":[{rules}]}}"#);
    let circle = [
        part("a", "slave", r#"{"needs":["b"]}"#),
        part("b", "spigot", r#"{"needs":["c"]}"#),
        part("c", "cam", r#"{"needs-one-of":["a"]}"#),
    ];
    assert_eq!(said(&circle.join(",")), ["a: Its needs come round to itself: a → b → c → a. They can only be chosen together."]);
    // Through others: a needs b, b one of two, of which one bars a and the other is of b's own slot.
    let barred = [
        part("a", "slave", r#"{"needs":["b"]}"#),
        part("b", "spigot", r#"{"needs-one-of":["c","d"]}"#),
        part("c", "cam", r#"{"excludes":["a"]}"#),
        part("d", "spigot", ""),
    ];
    assert_eq!(said(&barred.join(",")), ["a: Its rules can never hold, whatever else is chosen."]);
}

#[test]
fn the_kit_list_says_what_is_lacking_and_adds_up() {
    let shelf = sound(
        r#"{"id":"box","name":"Five-speed gearbox","slot":"slave","mass":34.5,"price":{"amount":650,"currency":"EUR"},
            "rules":[{"needs":["spigot"],"because":"its shaft runs there"},{"only-with":["mild"]}],"removes":[{"name":"Power steering","mass":"4 kg"}]},
           {"id":"bush","name":"Bush","slot":"spigot","mass":0.1,"price":{"amount":"9.95","currency":"EUR"},"stock":"=1+1"},
           {"id":"mild","name":"Mild cam","slot":"cam","price":{"amount":300,"currency":"GBP"}},
           {"id":"hot","name":"Hot cam, \"race\"","slot":"cam","rules":[{"excludes":["bush"]}]},
           {"id":"third","name":"Third cam","slot":"cam","rules":[{"needs-one-of":["bush","spigot","box"]}]}"#,
    );
    let mut build = Build::default();
    choose(&shelf, &mut build, "box");
    let words = |build: &Build| kit(&shelf, build).troubles.into_iter().map(|trouble| trouble.words).collect::<Vec<_>>();
    assert_eq!(words(&build), ["Five-speed gearbox needs a spigot bearing in the crankshaft: none chosen. (its shaft runs there)"]);
    choose(&shelf, &mut build, "bush");
    assert_eq!(words(&build), [""; 0]);
    let mut alone = Build::default();
    choose(&shelf, &mut alone, "third");
    assert_eq!(words(&alone), ["Third cam needs Bush, a spigot bearing in the crankshaft or Five-speed gearbox: none chosen."]);
    choose(&shelf, &mut build, "hot");
    assert_eq!(
        words(&build),
        ["Five-speed gearbox goes only with Mild cam, not with Hot cam, \"race\".", "Hot cam, \"race\" does not go with Bush."]
    );
    let found = kit(&shelf, &build);
    assert_eq!((found.not_priced, found.not_weighed, found.removed), (1, 1, kilograms(4.0)));
    assert!((found.mass.si() - 34.6).abs() < 1e-12);
    assert_eq!(found.totals.iter().map(|total| (total.price.to_string(), total.parts)).collect::<Vec<_>>(), [("659.95 EUR".into(), 2)]);
    assert_eq!(found.total(Currency::new("gbp").expect("letters")), None);
    let table = shelf::csv(&found, str::to_owned);
    let lines: Vec<&str> = table.split("\r\n").collect();
    assert_eq!(lines[1], "Slave cylinder,Five-speed gearbox,ours/box,650.00,EUR,34.5,,,Power steering");
    assert_eq!(lines[2], "Spigot bearing in the crankshaft,Bush,ours/bush,9.95,EUR,0.1,'=1+1,,");
    assert_eq!(lines[3], "Camshaft,\"Hot cam, \"\"race\"\"\",ours/hot,,,,,,");
    assert!(
        table.contains("Total,,,659.95,EUR,,,,\r\nTotal mass,,,,,34.6,,,\r\nComes off the engine,,,,,4,,,\r\nParts without a price,1,")
    );
}

/// A part without a price may cost anything: the difference is a bound, or not known at all.
#[test]
fn a_part_without_a_price_leaves_the_difference_open() {
    let shelf = sound(
        r#"{"id": "cheap", "name": "Cheap", "slot": "slave", "price": {"amount": "10.00", "currency": "EUR"}},
           {"id": "dear", "name": "Dear", "slot": "slave", "price": {"amount": "94.00", "currency": "EUR"}},
           {"id": "asked", "name": "On request", "slot": "cam"},
           {"id": "other", "name": "On request too", "slot": "cam"}"#,
    );
    let kit_of = |ids: &[&str]| {
        let mut build = Build::default();
        ids.iter().for_each(|id| choose(&shelf, &mut build, id));
        kit(&shelf, &build)
    };
    let differs = |is: &[&str], was: &[&str]| {
        let (is, was) = (kit_of(is), kit_of(was));
        let (known, unpriced) = is.dearer_is_known(&was);
        let dearer: Vec<String> = is.dearer(&was).iter().map(ToString::to_string).collect();
        (dearer.join(" "), known, unpriced.iter().map(ToString::to_string).collect::<Vec<_>>().join(", "))
    };
    let said = |dearer: &str, known, unpriced: &str| (dearer.to_owned(), known, unpriced.to_owned());
    assert_eq!(differs(&["dear"], &["cheap"]), said("+84.00 EUR", Known::Exactly, ""));
    // What stays on the car costs nothing more, whatever it costs.
    assert_eq!(differs(&["dear", "asked"], &["cheap", "asked"]), said("+84.00 EUR", Known::Exactly, ""));
    assert_eq!(differs(&["dear", "asked"], &["cheap"]), said("+84.00 EUR", Known::AtLeast, "On request"));
    assert_eq!(differs(&["cheap", "asked"], &["dear"]), said("−84.00 EUR", Known::AtLeast, "On request"));
    assert_eq!(differs(&["dear"], &["cheap", "asked"]), said("+84.00 EUR", Known::AtMost, "On request"));
    assert_eq!(differs(&["dear", "other"], &["cheap", "asked"]), said("+84.00 EUR", Known::Not, "On request, On request too"));
    assert_eq!(differs(&["asked"], &[]), said("", Known::Not, "On request"));
}

#[test]
fn a_value_typed_over_a_part_is_listed_with_it() {
    let shelf = sound(
        r#"{"id":"s","name":"S","slot":"slave","sets":{"clutch.slave-bore":20}},{"id":"c","name":"C","slot":"cam","sets":{"clutch.slave-bore":21}}"#,
    );
    let mut build = Build::default();
    choose(&shelf, &mut build, "s");
    assert!(kit(&shelf, &build).lines[0].detached.is_empty());
    build.set(clutch::SLAVE_BORE.id.into(), millimetres(19.0).si()).expect("in range");
    assert_eq!(kit(&shelf, &build).lines[0].detached[0].by, None);
    choose(&shelf, &mut build, "c");
    let found = kit(&shelf, &build);
    assert_eq!(found.lines[0].detached[0].by, Some("C".into()));
    assert_eq!(found.troubles[0].words, "S and C each set slave bore, and not alike.");
}

#[test]
fn the_demo_shelf_has_nothing_wrong_with_it() {
    let Read { shelf, problems } = shelf::read(demo()).expect("a shelf");
    assert_eq!(problems.iter().map(ToString::to_string).collect::<Vec<_>>(), [""; 0]);
    // All of it can be chosen, one by one, and every part has what the kit list adds up.
    for part in &shelf.parts {
        assert_eq!(shelf.choose(part, &mut Build::default()), [], "{}", part.id);
        assert!(part.price.is_some() && part.mass.is_some(), "{}", part.id);
    }
    assert!(shelf.slots.len() >= 12 && shelf.parts.len() >= 40);
    let elsewhere = |part: &shelf::Part| part.rules.iter().any(|rule| rule.of.iter().any(|name| matches!(name, Name::Elsewhere(_))));
    assert!(!shelf.parts.iter().any(elsewhere));
}

/// Whatever was given before comes back to the bit, whatever is chosen and in which order it goes.
fn any_choice() -> impl Strategy<Value = (Vec<prop::sample::Index>, Vec<prop::sample::Index>, f64)> {
    (prop::collection::vec(any::<prop::sample::Index>(), 0..12), prop::collection::vec(any::<prop::sample::Index>(), 12), 10.0..50.0_f64)
}

proptest! {
    #![proptest_config(laws(300))]

    #[test]
    fn removing_parts_restores_the_build_and_a_link_carries_them((chosen, order, bore) in any_choice(), cleared in any::<bool>()) {
        let shelf = shelf::read(demo()).expect("a shelf").shelf;
        let mut start = if cleared { Build::cleared(trialfit_core::calculators::ALL) } else { Build::default() };
        start.set(clutch::SLAVE_BORE.id.into(), millimetres(bore).si()).expect("in range");
        start.forget(car::MASS.id.into());
        let mut build = start.clone();
        for index in &chosen {
            shelf.choose(index.get(&shelf.parts), &mut build);
        }
        let opened = link::read(&link::write(&Link::from(build.clone()))).expect("a link");
        prop_assert_eq!(&opened.problems, &[]);
        prop_assert!(opened.link.build == build);
        for at in &order {
            if !build.parts().is_empty() {
                build.remove_part(at.index(build.parts().len()) as u16);
            }
        }
        prop_assert!(build.parts().is_empty() && build == start);
    }

    /// Letters of a sound shelf changed, dropped, doubled: it loads or not, and what is dropped of it is said.
    #[test]
    fn a_damaged_shelf_never_panics(cuts in prop::collection::vec((any::<prop::sample::Index>(), 0..6_u8, any::<char>()), 1..8)) {
        let mut text: Vec<char> = demo().chars().collect();
        for (at, how, letter) in cuts {
            let at = at.index(text.len());
            match how {
                0 => _ = text.remove(at),
                1 => text.insert(at, letter),
                2 => text[at] = letter,
                3 => text[at] = '"',
                4 => { let piece: Vec<char> = text[at..].iter().take(40).copied().collect(); text.splice(at..at, piece); }
                _ => text.truncate(at.max(1)),
            }
        }
        let text: String = text.into_iter().collect();
        let whole = shelf::read(demo()).expect("a shelf").shelf;
        if let Ok(read) = shelf::read(&text) {
            let fewer = |now: usize, once: usize| now < once;
            let sets = |shelf: &Shelf| shelf.parts.iter().map(|part| part.sets.len()).sum::<usize>();
            let less = fewer(read.shelf.parts.len(), whole.parts.len()) || fewer(sets(&read.shelf), sets(&whole));
            prop_assert!(!less || !read.problems.is_empty(), "half loaded, and nothing said");
            let mut build = Build::default();
            read.shelf.parts.iter().for_each(|part| _ = read.shelf.choose(part, &mut build));
            _ = shelf::csv(&kit(&read.shelf, &build), str::to_owned);
        }
    }

    /// Values of any kind in any field.
    #[test]
    fn any_value_in_any_field_never_panics(field in "id|name|slot|sets|mass|price|stock|link|rules|removes|cautions", value in any_json()) {
        let text = shelf(&format!(r#"{{"id":"p","name":"P","slot":"slave","{field}":{value}}},{{"id":"q","name":"Q","slot":"cam"}}"#));
        let read = shelf::read(&text).expect("a shelf all the same");
        prop_assert!(read.shelf.find("q").is_some());
    }
}

fn any_json() -> impl Strategy<Value = String> {
    let leaf = prop_oneof![
        Just("null".to_owned()),
        Just("true".to_owned()),
        Just("1e999".to_owned()),
        any::<f64>().prop_filter("JSON has none", |number| number.is_finite()).prop_map(|number| format!("{number:e}")),
        "[a-z0-9.,/ -]{0,12}".prop_map(|text| format!("\"{text}\"")),
        any::<String>().prop_map(|text| serde_json::to_string(&text).expect("a text")),
    ];
    leaf.prop_recursive(3, 24, 4, |inner| {
        let key = prop_oneof![
            Just("needs"),
            Just("amount"),
            Just("currency"),
            Just("excludes"),
            Just("only-with"),
            Just("name"),
            Just("mass"),
            Just("clutch.slave-bore")
        ];
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..4).prop_map(|values| format!("[{}]", values.join(","))),
            prop::collection::vec((key, inner), 0..4).prop_map(|pairs| format!(
                "{{{}}}",
                pairs.iter().map(|(key, value)| format!("\"{key}\":{value}")).collect::<Vec<_>>().join(",")
            )),
        ]
    })
}

#[test]
fn parts_in_a_link_that_make_no_sense_are_said_and_their_values_kept() {
    let read = |items: &str| link::read(&format!("1.1/{items}/end")).expect("a link");
    let opened = read("part.1=demo.slave.s20/clutch.slave-bore=25/clutch.slave-bore.part.1=20");
    assert_eq!(opened.problems, []);
    let mut build = opened.link.build;
    let place = Place::from(clutch::SLAVE_BORE.id);
    assert_eq!(
        (build.own_value(place), build.origin(place), build.parts()[0].to_string()),
        (Some(millimetres(20.0).si()), Origin::Part(0), "s20".into())
    );
    build.remove_part(0);
    assert_eq!((build.own_value(place), build.origin(place)), (Some(millimetres(25.0).si()), Origin::Own));
    for (items, problems) in [
        ("clutch.slave-bore.part.2=20", 1),
        ("part.1=demo.slave/clutch.slave-bore.part.1=20", 2),
        ("part.1=demo.slave.s20/part.2=demo.slave.s21/clutch.slave-bore.part.1=20", 1),
    ] {
        let opened = read(items);
        assert_eq!(opened.problems.len(), problems, "{items}: {:?}", opened.problems);
        assert_eq!(opened.link.build.own_value(place), Some(millimetres(20.0).si()), "{items}");
    }
    assert_eq!(read("part.1=demo.slave.s20/clutch.slave-bore.part.1=gone").problems.len(), 1);
    // A shelf beside the page, and nowhere else.
    assert_eq!(read("shelf=shelves.2f.ours.2e.json").link.shelf, "shelves/ours.json");
    for elsewhere in ["https.3a-2f-2f.x.2e.y", ".2f-2f.x", ".2e-2e-2f.x"] {
        let opened = read(&format!("shelf={elsewhere}"));
        assert_eq!((opened.link.shelf.as_str(), opened.problems.len()), ("", 1));
    }
    let link = Link { shelf: "shelves/ours.json".into(), ..Link::default() };
    assert_eq!(link::read(&link::write(&link)).expect("a link").link, link);
}

#[test]
fn a_later_version_is_read_as_far_as_it_goes() {
    let read = shelf::read(&shelf(r#"{"id":"p","name":"P","slot":"slave"}"#).replace("\":1,", "\":2,")).expect("a shelf");
    assert_eq!((read.shelf.parts.len(), &read.problems[0].fault), (1, &Fault::LaterVersion(2)));
}
