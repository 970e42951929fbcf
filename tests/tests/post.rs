//! What is posted of a build, through the programs of other people that show it: a Markdown and a BBCode renderer, and a
//! reader of QR codes.

use pulldown_cmark::{Event, Options, Parser, Tag};
use trialfit_core::build::Build;
use trialfit_core::calculators::{ALL, car, wiring};
use trialfit_core::plan::Plan;
use trialfit_core::report::Report;
use trialfit_core::share::link::{self, Link};
use trialfit_core::share::markup::Form;
use trialfit_core::share::qr::{Qr, qr};
use trialfit_core::share::text::Post;
use trialfit_core::show::System;
use trialfit_core::spec::{Place, RowId};

const PAGE: &str = "https://example.org/fit/";

const FORMS: [(Form, &str); 3] = [(Form::Plain, "plain"), (Form::Markdown, "markdown"), (Form::Bbcode, "bbcode")];

/// Names that would be more than names.
const HOSTILE: [&str; 9] = [
    "<img src=x onerror=alert(1)>",
    "[url=https://example.com]free[/url]",
    "[free](https://example.com)",
    "*stars* _lines_ `ticks` ~~gone~~",
    "</textarea><script>1</script>",
    "&lt;b&gt; & co",
    "1. first -- then",
    "# head | table | $x$",
    "[b][img]x[/img]",
];

fn evaluated(build: &Build) -> Report {
    let mut report = Report::new(build);
    Plan::default().evaluate(build, &mut report);
    report
}

fn post(form: Form, calculator: Option<u8>) -> Post<'static> {
    Post { form, system: System::Metric, page: PAGE, calculator, translate: str::to_owned }
}

fn named(name: &str) -> Link {
    let mut build = Build::default();
    build.set_text(car::NAME.id.into(), name).expect("a name");
    let short: String = name.chars().take(28).collect();
    build.set_text(Place { id: wiring::NAME.id, row: Some(RowId(1)) }, &short).expect("a name");
    Link { note: name.to_owned(), ..build.into() }
}

#[test]
fn markdown_shows_the_words_as_they_are_and_the_link_alone_as_a_link() {
    for name in HOSTILE {
        let link = named(name);
        let text = post(Form::Markdown, None).report(&link, &evaluated(&link.build));
        let (mut words, mut links, mut items) = (String::new(), Vec::new(), 0);
        for event in Parser::new_ext(&text, Options::all() - Options::ENABLE_SMART_PUNCTUATION) {
            match event {
                Event::Text(text) => words.push_str(&text),
                Event::SoftBreak | Event::HardBreak | Event::End(_) => words.push('\n'),
                Event::Start(Tag::Link { dest_url, .. }) => links.push(dest_url.into_string()),
                Event::Start(Tag::Item) => items += 1,
                Event::Start(Tag::Paragraph | Tag::List(None) | Tag::BlockQuote(_) | Tag::Strong) => {}
                other => panic!("{other:?} of {name} in\n{text}"),
            }
        }
        assert_eq!(links, [format!("{PAGE}#{}", link::write(&link))]);
        assert!(words.contains(&format!("Note: {name}\n")), "{name} in\n{words}");
        assert!(words.contains(&format!("Car: {name}\n")), "{name} in\n{words}");
        assert!(items > 20, "only {items} items in\n{text}");
    }
}

#[test]
fn bbcode_shows_the_words_and_the_link_alone_as_a_link() {
    let renderer = bbscope::BBCode::default().expect("its own tags");
    for name in HOSTILE {
        let link = named(name);
        let text = post(Form::Bbcode, None).report(&link, &evaluated(&link.build));
        let html = renderer.parse(&text);
        // An address in a name is one for every forum, and stands there in full; nothing else is a link.
        let links: Vec<&str> = html.split("<a href=\"").skip(1).filter_map(|rest| rest.split("</a>").next()).collect();
        let named: Vec<&&str> = links.iter().filter(|link| link.rsplit('>').next() != link.split('"').next()).collect();
        assert_eq!(named.len(), 1, "{name} in\n{html}");
        assert!(named[0].starts_with(&format!("{PAGE}#{}\"", link::write(&link))), "in\n{html}");
        assert!(!html.contains("<img") && !html.contains("<script"), "{name} in\n{html}");
        assert_eq!(text.matches("[list]").count(), text.matches("[/list]").count());
        assert!(html.matches("<li>").count() > 20, "in\n{html}");
    }
}

/// Pasted, a note may have marks that turn all that follows round, and spaces that make a block of it.
#[test]
fn a_note_is_posted_as_its_link_has_it() {
    let link = Link { note: "    try \u{202E}this\n\nbore\u{200F} ".into(), ..Link::default() };
    let report = evaluated(&link.build);
    for (form, name) in FORMS {
        let text = post(form, Some(0)).report(&link, &report);
        assert!(text.lines().any(|line| line.trim_end() == "Note: try this bore"), "{name}: {text}");
    }
    let blank = Link { note: " \u{200F}".into(), ..Link::default() };
    assert!(!post(Form::Plain, Some(0)).report(&blank, &report).contains("Note:"));
}

#[test]
fn the_address_of_the_page_cannot_end_a_link_early() {
    let link = Link::default();
    for (form, _) in FORMS {
        let page = "https://example.org/a folder/]x>(y)/";
        let sentence = (ALL[1].sentence)(&link.build, &evaluated(&link.build));
        let answer = Post { page, ..post(form, None) }.answer(ALL[1].label, &sentence, &link);
        match form {
            Form::Plain => assert!(answer.ends_with(&format!("{page}#1.1/end")), "{answer}"),
            Form::Markdown => {
                let links = Parser::new(&answer).filter_map(|event| match event {
                    Event::Start(Tag::Link { dest_url, .. }) => Some(dest_url.into_string()),
                    _ => None,
                });
                assert_eq!(links.collect::<Vec<_>>(), ["https://example.org/a%20folder/%5Dx%3E(y)/#1.1/end"]);
            }
            Form::Bbcode => assert!(answer.contains("[url=https://example.org/a%20folder/%5Dx%3E(y)/#1.1/end]"), "{answer}"),
        }
    }
}

/// The texts as they are: what changes in them is to be looked at. `TRIALFIT_WRITE_POSTS=1` writes them anew.
#[test]
fn posts_are_as_they_were() {
    let link = link::read("1.1/car.name=Blue-two-seater/clutch.slave-bore=25.4/clutch.pedal-lever=gone/note=too-heavy.21./end")
        .expect("a link")
        .link;
    let report = evaluated(&link.build);
    for (form, name) in FORMS {
        let at = ALL.iter().position(|it| it.key == "clutch").map(|at| at as u8);
        let text = post(form, at).report(&link, &report);
        let path = format!("{}/posts/clutch.{name}.txt", env!("CARGO_MANIFEST_DIR"));
        if std::env::var_os("TRIALFIT_WRITE_POSTS").is_some() {
            std::fs::write(&path, &text).expect("a folder to write to");
        }
        let kept = std::fs::read_to_string(&path).expect("kept beside the tests");
        assert_eq!(text, kept, "{path}");
    }
}

/// Pixels for each module of a code.
const SCALE: usize = 4;

/// What a camera would read.
fn read_back(code: &Qr) -> String {
    let side = code.side as usize;
    let mut dark = vec![false; side * side];
    for run in code.path.split('M').skip(1) {
        let numbers: Vec<usize> = run.split(|letter: char| !letter.is_ascii_digit()).filter_map(|word| word.parse().ok()).collect();
        let [x, y, length, ..] = numbers[..] else { panic!("{run}") };
        dark[y * side + x..y * side + x + length].fill(true);
    }
    let shade = |x: usize, y: usize| if dark[y / SCALE * side + x / SCALE] { 0 } else { 255 };
    let mut picture = rqrr::PreparedImage::prepare_from_greyscale(side * SCALE, side * SCALE, shade);
    let grids = picture.detect_grids();
    assert_eq!(grids.len(), 1);
    grids[0].decode().expect("a code").1
}

#[test]
fn a_qr_code_is_read_back_by_another_program() {
    let texts = [
        "1.1/end",
        "1.1/clutch.slave-bore=22.2/note=try-this-bore/end",
        "1.1/car.gears=1.2.3/car.torque=1.2.9/front-drive.pulleys=1.2.4/end",
    ];
    for text in texts {
        let address = format!("{PAGE}#{text}");
        assert_eq!(read_back(&qr(&address).expect("short enough")), address);
    }
    // All but the longest.
    let long = format!("{PAGE}#1z.1/{}/end", "k7Qa".repeat(300));
    assert_eq!(read_back(&qr(&long).expect("short enough")), long);
}

#[test]
fn a_text_too_long_for_a_screen_makes_no_code() {
    // ISO/IEC 18004, table 7: version 25 holds 1273 bytes at the lowest correction.
    assert!(qr(&"a".repeat(1273)).is_some());
    assert_eq!(qr(&"a".repeat(1274)), None);
}
