//! The tools on the page: what they show is what they find natively, and the page stays alive meanwhile.

use crate::page::with_app;
use crate::session::Session;
use anyhow::{Context, Result, ensure};
use trialfit_core::build::Build;
use trialfit_core::show;
use trialfit_core::spec::{Kind, Place};
use trialfit_core::tools::solve::Solve;
use trialfit_core::tools::spread::{SAMPLES, SEED, Spread};
use trialfit_core::tools::sweep::Map;
use trialfit_tests::{PLAN, done};

fn place(build: &Build, key: &str) -> Result<Place> {
    build.layout().place_by_key(key).with_context(|| format!("no {key}"))
}

/// An SI value of a place in its own unit, as the tools write it.
fn written(build: &Build, place: Place, value: f64) -> Result<String> {
    let Kind::Quantity { unit, .. } = build.layout().kind(place.id) else { anyhow::bail!("no quantity") };
    Ok(show::answer(value, unit, 3).to_string())
}

async fn open(session: &Session, tool: &str) -> Result<()> {
    session.value(&format!("void (document.getElementById('{tool}').open = true)")).await.map(drop)
}

#[tokio::test]
async fn a_pulley_is_swept_and_the_band_named() -> Result<()> {
    with_app("#front-drive", async |session, _| {
        open(session, "sweep").await?;
        session.choose("sweep-input", "front-drive.alternator-pulley").await?;
        session.choose("sweep-output", "front-drive.alternator-idle-speed").await?;
        session.until("/within limits/.test(document.querySelector('#sweep .found')?.textContent ?? '')").await?;
        session.until("!!document.querySelector('#sweep .plot-sheet path')").await?;
        // A range that is none is told, and nothing is drawn for it.
        session.type_in("sweep-from", "9000").await?;
        session.until("!document.querySelector('#sweep .plot-sheet')").await?;
        session.type_in("sweep-from", "50 mm").await?;
        session.until("!!document.querySelector('#sweep .plot-sheet')").await
    })
    .await
}

#[tokio::test]
async fn what_is_held_lies_under_a_sweep() -> Result<()> {
    with_app("#overview", async |session, _| {
        session.press("hold").await?;
        session.go("clutch").await?;
        session.type_in("clutch.pedal-ratio", "5").await?;
        open(session, "sweep").await?;
        session.choose("sweep-output", "clutch.pedal-force").await?;
        session
            .until("!!document.querySelector('#sweep .plot-sheet .ink-fitted') && !!document.querySelector('#sweep .ink-curve')")
            .await?;
        session.until("/as fitted/.test(document.querySelector('#sweep .plot-note').textContent)").await
    })
    .await
}

#[tokio::test]
async fn two_bores_have_a_field_whose_points_can_be_taken() -> Result<()> {
    with_app("#clutch", async |session, _| {
        let build = Build::default();
        let inputs = [place(&build, "clutch.slave-bore")?, place(&build, "clutch.master-bore")?];
        open(session, "map").await?;
        session.choose("map-across", "clutch.slave-bore").await?;
        session.choose("map-up", "clutch.master-bore").await?;
        for (field, value) in [("map-left", "18"), ("map-right", "26"), ("map-low", "14"), ("map-high", "22")] {
            session.type_in(field, value).await?;
        }
        let ranges = [[18e-3, 26e-3], [14e-3, 22e-3]];
        let map = Map::new(&PLAN, &build, inputs, ranges, None, [41, 33]).map_err(|why| anyhow::anyhow!("{why:?}"))?;
        let finding = done(&PLAN, map, 1000).finding(&build);
        session.until(&format!("document.querySelector('#map figcaption')?.textContent.includes('{finding}')")).await?;
        session.value("document.querySelector('#map .plot-points summary').click()").await?;
        session.until("document.querySelectorAll('#map .plot-points li button').length > 50").await?;
        // The last is the widest of both.
        session.value("[...document.querySelectorAll('#map .plot-points li button')].at(-1).click()").await?;
        session.until("document.getElementById('clutch.slave-bore').value === '26'").await?;
        session.until("document.getElementById('clutch.master-bore').value === '22'").await?;
        // One with itself has no field.
        session.choose("map-up", "clutch.slave-bore").await?;
        session.until("!!document.querySelector('#map .problem:not(:empty)') && !document.querySelector('#map .plot-sheet')").await
    })
    .await
}

#[tokio::test]
async fn a_pedal_force_is_reached_by_a_bore() -> Result<()> {
    with_app("#clutch", async |session, _| {
        let build = Build::default();
        let (input, output) = (place(&build, "clutch.slave-bore")?, place(&build, "clutch.pedal-force")?);
        open(session, "solve").await?;
        session.choose("solve-output", "clutch.pedal-force").await?;
        session.choose("solve-input", "clutch.slave-bore").await?;
        session.type_in("solve-target", "120").await?;
        session.press("solve-go").await?;
        session.until("!!document.querySelector('#solve .takes li')").await?;
        let text = session.string("document.querySelector('#solve .takes li').firstChild.textContent").await?;
        // Over the sizes that the trade has.
        let (Kind::Quantity { unit, .. }, sizes) = (build.layout().kind(input.id), build.layout().spec(input.id).sizes) else {
            anyhow::bail!("no quantity")
        };
        let ends = [sizes.first(), sizes.last()].map(|size| size.map_or(f64::NAN, |size| unit.to_si(*size)));
        let solved =
            done(&PLAN, Solve::new(&PLAN, &build, input, ends, output, 120.0, 400).map_err(|why| anyhow::anyhow!("{why:?}"))?, 1000);
        let had = solved.solutions.first().context("no solution")?;
        ensure!(text == format!("{} gives {}", written(&build, input, had.input)?, written(&build, output, had.output)?), "{text}");
        // Taking a size of the trade fits it.
        let size = solved.to_be_had.first().context("no size")?;
        session.value("document.querySelector('#solve .takes:last-of-type button').click()").await?;
        let shown = show::input(size.input, unit).number;
        session.until(&format!("document.getElementById('clutch.slave-bore').value === '{shown}'")).await?;
        // What was found was of another build.
        session.until("!document.querySelector('#solve .takes li')").await
    })
    .await
}

#[tokio::test]
async fn a_spread_has_the_figures_it_has_elsewhere() -> Result<()> {
    with_app("#bonnet-line", async |session, _| {
        let build = Build::default();
        let output = place(&build, "bonnet-line.least")?;
        let found =
            done(&PLAN, Spread::new(&PLAN, &build, &[output], SAMPLES, SEED).map_err(|_| anyhow::anyhow!("a tolerance is unknown"))?, 1000);
        let outcome = &found.outcomes[0];
        open(session, "spread").await?;
        session.choose("spread-output", "bonnet-line.least").await?;
        session.press("spread-go").await?;
        // The page listens meanwhile.
        session.until("!!document.querySelector('#spread progress')").await?;
        session.press("stop").await?;
        session.until("!document.querySelector('#spread progress') && !document.querySelector('#spread .found')").await?;
        session.press("spread-go").await?;
        session.until("!!document.querySelector('#spread .found')").await?;
        let said = session.string("document.querySelector('#spread .found').textContent").await?;
        for share in [0.05, 0.5, 0.95] {
            let value = written(&build, output, outcome.quantile(share).context("no samples")?)?;
            ensure!(said.contains(&value), "{said} has no {value}");
        }
        let first = build.layout().key(outcome.shares[0].place);
        ensure!(session.string("document.querySelector('#spread tbody a').getAttribute('href')").await? == format!("#{first}"));
        // Another build, other figures: the old ones go.
        session.press("choice-more").await?;
        session.until("!document.querySelector('#spread .found')").await
    })
    .await
}

#[tokio::test]
async fn give_or_take_is_given_at_a_number_and_travels() -> Result<()> {
    with_app("#clutch.slave-bore", async |session, _| {
        session.press("clutch.slave-bore.more").await?;
        session.type_in("clutch.slave-bore.pm", "0.05 mm").await?;
        session.choose("clutch.slave-bore.dist", "uniform").await?;
        session.press("open-send").await?;
        session.until("/slave-bore\\.pm=0\\.05/.test(document.getElementById('send-link').value)").await?;
        session.until("/slave-bore\\.dist=/.test(document.getElementById('send-link').value)").await?;
        session.press("close-send").await?;
        session.type_in("clutch.slave-bore.pm", "-3").await?;
        session.until("document.getElementById('clutch.slave-bore.pm').getAttribute('aria-invalid') === 'true'").await?;
        session.reload().await?;
        session.press("clutch.slave-bore.more").await?;
        session.until("document.getElementById('clutch.slave-bore.pm').value === '0.05'").await?;
        session.until("document.getElementById('clutch.slave-bore.dist').value === 'uniform'").await
    })
    .await
}

/// Every file the page hands over, by name: kind and, of texts, the text.
pub(crate) const CATCH: &str = "window.files = {}; const make = URL.createObjectURL; window.blobs = {}; \
    URL.createObjectURL = (blob) => { const url = make(blob); window.blobs[url] = blob; return url; }; \
    HTMLAnchorElement.prototype.click = function () { const blob = window.blobs[this.href]; \
        blob.arrayBuffer().then((bytes) => { window.files[this.download] = { kind: blob.type, size: bytes.byteLength, \
            marked: new Uint8Array(bytes)[0] === 0xEF, \
            text: blob.type.startsWith('image/png') ? '' : new TextDecoder().decode(bytes) }; }); };";

#[tokio::test]
async fn a_chart_is_saved_as_drawing_picture_and_table() -> Result<()> {
    with_app("#bonnet-line", async |session, _| {
        session.value(&format!("void (() => {{ {CATCH} }})()")).await?;
        session.until("!!document.querySelector('.plot .plot-sheet path')").await?;
        session.value("document.querySelector('.plot details:last-child').open = true").await?;
        session.until("document.querySelectorAll('.plot details:last-child button').length === 3").await?;
        for at in 0..3 {
            session.value(&format!("document.querySelectorAll('.plot details:last-child button')[{at}].click()")).await?;
        }
        session.until("Object.keys(window.files).length === 3").await?;
        let file = |ending: &str| format!("Object.entries(window.files).find(([name]) => name.endsWith('.{ending}'))[1]");
        let parsed = format!("new DOMParser().parseFromString({}.text, 'image/svg+xml')", file("svg"));
        session.until(&format!("!{parsed}.querySelector('parsererror') && !!{parsed}.querySelector('path')")).await?;
        ensure!(session.string(&format!("{}.kind", file("png"))).await? == "image/png");
        ensure!(session.number(&format!("{}.size", file("png"))).await? > 5_000.0, "an empty picture");
        let table = session.string(&format!("{}.text", file("csv"))).await?;
        let lines: Vec<&str> = table.trim_end().split("\r\n").collect();
        ensure!(lines.len() > 10 && lines[1].split(',').all(|cell| cell.is_empty() || cell.parse::<f64>().is_ok()), "{table}");
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_drawing_is_sent_as_a_picture_and_saved_where_it_is_refused() -> Result<()> {
    with_app("#clutch", async |session, _| {
        let sharing = "navigator.canShare = (what) => what.files.length === 1; navigator.share = (what) => { window.shared = what; \
            return window.refusal ? Promise.reject(new DOMException('no', window.refusal)) : Promise.resolve(); };";
        session.value(&format!("void (() => {{ {CATCH} {sharing} }})()")).await?;
        let folded = ".rest > details:nth-of-type(2)";
        session.value(&format!("document.querySelector('{folded}').open = true")).await?;
        session.until(&format!("document.querySelectorAll('{folded} button').length === 3")).await?;
        let send = format!("void (window.shared = null, document.querySelectorAll('{folded} button')[2].click())");
        for (refusal, files) in [("", 0), ("AbortError", 0), ("NotAllowedError", 1)] {
            session.value(&format!("window.refusal = '{refusal}'")).await?;
            session.value(&send).await?;
            session.until("window.shared?.files[0].type === 'image/png' && window.shared.files[0].size > 5000").await?;
            session.until(&format!("Object.keys(window.files).length === {files}")).await?;
        }
        ensure!(session.string("Object.keys(window.files)[0]").await? == "drawing-clutch.png");
        session.value(&format!("document.querySelector('{folded} button').click()")).await?;
        let drawn =
            "new DOMParser().parseFromString(window.files['drawing-clutch.svg'].text, 'image/svg+xml').querySelectorAll('path').length > 5";
        session.until(&format!("!!window.files['drawing-clutch.svg'] && {drawn}")).await
    })
    .await
}

#[tokio::test]
async fn a_shelf_and_its_kit_list_leave_as_files() -> Result<()> {
    with_app("#overview", async |session, _| {
        session.value(&format!("void (() => {{ {CATCH} }})()")).await?;
        session.press("demo-shelf").await?;
        session.element("combine").await?;
        let save = "[...document.querySelectorAll('[data-shelf] button')].find((it) => it.textContent === 'Save this shelf as a file')";
        session.value(&format!("{save}.click()")).await?;
        session.until("!!window.files['demo.json']").await?;
        ensure!(session.string("window.files['demo.json'].text").await? == include_str!("../../../public/demo-shelf.json"));
        session.choose("part.demo.slave-cylinder", "slave-1").await?;
        session.press("kit-csv").await?;
        session.until("window.files['kit.csv']?.text.includes('Slave cylinder 1 in')").await?;
        // A spreadsheet knows the letters of the one by its mark; the other leaves as it came.
        session.until("window.files['kit.csv'].marked && !window.files['demo.json'].marked").await
    })
    .await
}
