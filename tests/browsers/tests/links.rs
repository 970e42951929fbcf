//! Cars that come by link: shown over one's own, which stays untouched until its owner decides.

use crate::desk;
use crate::page::{quoted, screens, with_app};
use crate::session::Session;
use anyhow::{Context, Result, ensure};
use serde_json::json;
use thirtyfour::Key;
use trialfit_core::build::{Build, Fitted};
use trialfit_core::calculators::{ALL, car};
use trialfit_core::report::Report;
use trialfit_core::sentence::Piece;
use trialfit_core::share::link::{self, Asked, Link, Tool};
use trialfit_core::share::markup::Form;
use trialfit_core::share::qr::qr;
use trialfit_core::share::text::Post;
use trialfit_core::show::{self, System};
use trialfit_core::spec::{Kind, Place};
use trialfit_core::tools::spread::{SAMPLES, SEED, Spread};
use trialfit_core::tools::sweep::Sweep;
use trialfit_tests::{PLAN, done};

/// One's own car, its place and what is looked at on it.
const OWN: &str = "clutch.slave-bore";
const KEPT: &str = "trialfit.build.1";

/// Somebody else's.
const THEIRS: &str =
    "1.1/car.name=Green.2d.seater/clutch.slave-bore=20.6375/clutch.pedal-ratio=5.5/note=try-this-pair/show=clutch.pedal-ratio/end";

/// Makes a car of one's own, and opens a link over it.
async fn visited(session: &Session, text: &str) -> Result<Build> {
    session.go("clutch").await?;
    session.type_in(OWN, "23.8125").await?;
    let own = desk::kept(session.kept_text(KEPT).await?)?;
    open(session, text).await?;
    Ok(own)
}

/// As when a link is pasted into the address.
async fn open(session: &Session, text: &str) -> Result<()> {
    session.value(&format!("void (location.hash = {})", quoted(text))).await.map(drop)
}

async fn mine_is_untouched(session: &Session, own: &Build) -> Result<()> {
    ensure!(desk::kept(session.kept_text(KEPT).await?)? == *own, "one's own car was written over");
    Ok(())
}

async fn shows(session: &Session, build: &Build) -> Result<()> {
    session.says("answer-spoken", &desk::spoken(build, "clutch", Default::default())?).await
}

/// No longer a link in the address: loading again must not bring the other car back.
async fn address_is_mine(session: &Session) -> Result<()> {
    session.until("location.hash === '#clutch' && !document.getElementById('visit')").await
}

#[tokio::test]
async fn a_link_opens_with_its_values_where_it_says() -> Result<()> {
    with_app(&format!("#{THEIRS}"), async |session, _| {
        // The field is pointed out whole: nobody means to type yet.
        session.until("document.activeElement?.dataset.key === 'clutch.pedal-ratio'").await?;
        session.until("!!document.activeElement.querySelector('[id=\"clutch.pedal-ratio\"]')").await?;
        session.says("visit-note", "try this pair").await?;
        session.says("car-name", "Green-seater").await?;
        shows(session, &desk::opened(THEIRS)?).await?;
        ensure!(session.field(OWN).await? == "20.6375" && session.field("clutch.pedal-ratio").await? == "5.5");
        session.until("!document.getElementById('demo')").await?;
        ensure!(session.kept_text(KEPT).await?.is_none(), "a link alone was kept");
        // At an answer, too; the words of whoever sent it stay in sight, and hide nothing.
        open(session, &format!("1.1/note={}/show=front-drive.grip/end", "why-so.3f.-".repeat(40))).await?;
        session.until("document.activeElement?.dataset.key === 'front-drive.grip'").await?;
        let note = "document.getElementById('visit-note').getBoundingClientRect()";
        session.until(&format!("{note}.top >= 0 && {note}.height > 0 && {note}.bottom < innerHeight / 2")).await?;
        session.until(&format!("document.activeElement.getBoundingClientRect().top > {note}.bottom")).await
    })
    .await
}

/// Nobody has a car here yet: nothing is asked, and what is changed is one's own from then on.
#[tokio::test]
async fn the_first_link_on_a_device_is_ones_own_once_changed() -> Result<()> {
    with_app(&format!("#{THEIRS}"), async |session, _| {
        session.until("document.getElementById('visit')?.textContent.includes('Change anything, and it is yours.')").await?;
        for of_mine in ["keep-both", "visit-differs"] {
            ensure!(session.value(&format!("document.getElementById('{of_mine}')")).await?.is_null(), "{of_mine}");
        }
        session.type_in("clutch.pedal-ratio", "5.75").await?;
        session.until("!document.getElementById('visit')").await?;
        address_is_mine(session).await?;
        session.until("!document.getElementById('ask').open").await?;
        let mut changed = desk::opened(THEIRS)?;
        let ratio = changed.layout().place_by_key("clutch.pedal-ratio").context("no such key")?;
        changed.set(ratio, 5.75).map_err(|why| anyhow::anyhow!("{why:?}"))?;
        shows(session, &changed).await?;
        session.kept().await?;
        ensure!(desk::kept(session.kept_text(KEPT).await?)? == changed);
        // The change, then the car.
        session.press("undo").await?;
        shows(session, &desk::opened(THEIRS)?).await?;
        session.press("undo").await?;
        session.until("!!document.getElementById('demo')").await?;
        // With a car of one's own there, all is asked.
        session.type_in(OWN, "24").await?;
        open(session, THEIRS).await?;
        session.until("!!document.getElementById('keep-both') && !!document.getElementById('visit-differs')").await
    })
    .await
}

#[tokio::test]
async fn mine_can_be_kept_instead() -> Result<()> {
    with_app("", async |session, _| {
        let own = visited(session, THEIRS).await?;
        shows(session, &desk::opened(THEIRS)?).await?;
        mine_is_untouched(session, &own).await?;
        session.press("keep-mine").await?;
        address_is_mine(session).await?;
        shows(session, &own).await?;
        session.reload().await?;
        shows(session, &own).await?;
        mine_is_untouched(session, &own).await
    })
    .await
}

#[tokio::test]
async fn theirs_can_be_taken_and_mine_brought_back() -> Result<()> {
    with_app("", async |session, _| {
        let own = visited(session, THEIRS).await?;
        session.press("take-theirs").await?;
        address_is_mine(session).await?;
        let theirs = desk::opened(THEIRS)?;
        shows(session, &theirs).await?;
        ensure!(desk::kept(session.kept_text(KEPT).await?)? == theirs);
        session.press("undo").await?;
        shows(session, &own).await?;
        mine_is_untouched(session, &own).await
    })
    .await
}

#[tokio::test]
async fn both_can_be_kept() -> Result<()> {
    with_app("", async |session, _| {
        let own = visited(session, THEIRS).await?;
        session.press("keep-both").await?;
        address_is_mine(session).await?;
        let theirs = desk::opened(THEIRS)?;
        shows(session, &theirs).await?;
        mine_is_untouched(session, &own).await?;
        ensure!(desk::kept(session.kept_text("trialfit.build.2").await?)? == theirs);
        // Both are in the menu, and mine opens from there.
        session.press("open-menu").await?;
        session.until("[...document.querySelectorAll('#cars input')].some((it) => it.value === 'Green-seater')").await?;
        session.value("document.querySelector('#cars [data-car=\"1\"] button').click()").await?;
        session.press("close-menu").await?;
        shows(session, &own).await
    })
    .await
}

#[tokio::test]
async fn the_first_edit_asks_what_becomes_of_mine() -> Result<()> {
    with_app("", async |session, _| {
        let own = visited(session, THEIRS).await?;
        let theirs = desk::opened(THEIRS)?;
        // Esc only looks on: neither car changes.
        session.press("choice-more").await?;
        session.until("document.getElementById('ask').open").await?;
        session.driver.active_element().await?.send_keys(Key::Escape + "").await?;
        session.until("!document.getElementById('ask').open && !!document.getElementById('visit')").await?;
        shows(session, &theirs).await?;
        mine_is_untouched(session, &own).await?;
        // Nor does what was typed on into the window, unseen, answer it.
        session.enter(OWN, "20").await?;
        session.until("document.getElementById('ask').open").await?;
        for keys in [".25 ".into(), Key::Enter + ""] {
            session.driver.action_chain().send_keys(keys).perform().await?;
        }
        session.until("document.getElementById('ask').open && document.activeElement.id === 'ask-title'").await?;
        session.press("ask-look").await?;
        shows(session, &theirs).await?;
        mine_is_untouched(session, &own).await?;
        // Asked again, both are kept and the edit is done.
        session.press("choice-more").await?;
        session.press("ask-both").await?;
        address_is_mine(session).await?;
        let edited = desk::opened(&THEIRS.replace("20.6375", "22.225"))?;
        shows(session, &edited).await?;
        mine_is_untouched(session, &own).await?;
        ensure!(desk::kept(session.kept_text("trialfit.build.2").await?)? == edited);
        Ok(())
    })
    .await
}

/// What each of these has wrong with it is listed; the rest of it stands.
#[tokio::test]
async fn a_link_with_faults_lists_them_and_keeps_the_rest() -> Result<()> {
    with_app("#clutch", async |session, _| {
        let faulty = [
            // Cut short, of a later version, against later defaults.
            "1.1/clutch.slave-bore=20.6375/clutch.pedal-rat",
            "2.1/clutch.slave-bore=20.6375/clutch.later-thing=7/end",
            "1.99/clutch.slave-bore=20.6375/end",
            // Unknown, misspelt, out of range, not a number, twice, an answer, no such row, no such choice.
            "1.1/clutch.slave-bore=20.6375/clutch.slave-boar=19/car.idle=99999/car.mass=heavy/car.rim=15/car.rim=16/end",
            "1.1/clutch.slave-bore=20.6375/clutch.effort=10/car.gears.77.ratio=2/car.torque-basis=guess/car.gears=1.2.x/end",
            "1.1/clutch.slave-bore=20.6375/car.idle=1e999/car.redline=NaN/car.cruise=-5/---/==/end",
        ];
        for text in faulty {
            open(session, text).await?;
            let opened = link::read(text)?;
            let problems: Vec<String> = opened.problems.iter().map(ToString::to_string).collect();
            ensure!(!problems.is_empty(), "nothing is wrong with {text}");
            let listed = "JSON.stringify([...document.querySelectorAll('#visit-problems li')].map((it) => it.textContent))";
            session.until(&format!("{listed} === {}", quoted(&json!(problems).to_string()))).await.context(text)?;
            shows(session, &opened.link.build).await?;
            ensure!(session.field(OWN).await? == "20.6375", "the rest of {text} was lost");
        }
        // Nothing to be had from it: what was there stays.
        session.press("keep-mine").await?;
        for text in ["1z.1/AAAA/end", "7z.1/0/end"] {
            open(session, text).await?;
            session.says("no-link", &link::read(text).err().context("was read")?.to_string()).await?;
            shows(session, &desk::opened("1.1/end")?).await?;
            ensure!(session.value("!document.getElementById('visit')").await? == json!(true));
        }
        Ok(())
    })
    .await
}

#[tokio::test]
async fn hostile_words_stay_words() -> Result<()> {
    with_app("", async |session, _| {
        let hostile = "<img src=x onerror=\"window.hacked=1\"><script>window.hacked=2</script><b>bold</b>\u{202e}{{x}}";
        let mut build = Build::default();
        build.set_text(car::NAME.id.into(), hostile).ok();
        let layout = build.layout().clone();
        for place in layout.places(trialfit_core::spec::Role::Input) {
            if layout.key(place).ends_with(".name") && place.row.is_some() {
                build.set_text(place, "<i>x</i>'\"&amp;").ok();
            }
        }
        let text = link::write(&Link { build, note: hostile.into(), show: "<svg onload=alert(1)>".into(), ..Link::default() });
        let by_hand = "1.1/car.name=<img-src=x-onerror=window.hacked=3>/note=<b>x</b>/show=\"><script>/<u>=1/end";
        for text in [text.as_str(), by_hand] {
            open(session, text).await?;
            session.until("!!document.getElementById('visit')").await?;
            for calculator in screens() {
                session.press(&format!("to-{calculator}")).await?;
                session.press("open-send").await?;
                session.press("close-send").await?;
                session
                    .until("!document.querySelector('body img, body b > b, #visit b, #visit u, body script, i, [onload], [onerror]')")
                    .await?;
                ensure!(session.value("window.hacked ?? null").await?.is_null(), "words ran as a script");
            }
        }
        Ok(())
    })
    .await
}

/// One link fills in all calculators, and stays what it says with no network.
#[tokio::test]
async fn a_link_fills_in_every_calculator() -> Result<()> {
    let all = "1.1/car.redline=7200/front-drive.crank-pulley=132/clutch.slave-bore=20.6375/flywheel.mass=3.9\
               /wiring.circuits.2.length=3.2/bonnet-line.height=58/bonnet-line.height.pm=0.5/end";
    let mut build = desk::opened(all)?;
    // Kept, it is no demo that one tap clears.
    build.set_text(car::NAME.id.into(), "From a link").map_err(|_| anyhow::anyhow!("no name"))?;
    with_app("", async |session, _| {
        session.kept().await?;
        open(session, all).await?;
        session.until("!!document.getElementById('visit')").await?;
        session.press("take-theirs").await?;
        session.kept().await?;
        ensure!(desk::kept(session.kept_text(KEPT).await?)? == build);
        session.until("!document.getElementById('demo')").await?;
        session.ask("Network.enable", json!({})).await?;
        session
            .ask(
                "Network.emulateNetworkConditions",
                json!({ "offline": true, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1 }),
            )
            .await?;
        session.reload().await?;
        for calculator in screens() {
            session.go(calculator).await?;
            session.says("answer-spoken", &desk::answer(all, calculator)?).await?;
        }
        Ok(())
    })
    .await
}

/// What is sent opens as what was sent.
#[tokio::test]
async fn a_car_is_written_for_a_forum_and_shown_to_a_camera() -> Result<()> {
    with_app("#1.1/car.name=Blue-.5b.b.5d./clutch.slave-bore=22.2/end", async |session, url| {
        session.press("take-theirs").await?;
        session.go("clutch").await?;
        session.press("open-send").await?;
        let address = session.field("send-link").await?;
        let fragment = address.strip_prefix(&format!("{url}#")).context("of this page")?;
        let link = link::read(fragment)?.link;
        session.press("send-qr-title").await?;
        session.until("!!document.querySelector('#send-qr path')").await?;
        let drawn = session.string("document.querySelector('#send-qr path').getAttribute('d')").await?;
        ensure!(Some(drawn) == qr(&address).map(|code| code.path), "another code than that of {address}");
        session.press("send-whole").await?;
        let mut report = Report::new(&link.build);
        PLAN.evaluate(&link.build, &mut report);
        let clutch = ALL.iter().position(|it| it.key == "clutch").map(|at| at as u8);
        for (form, id) in [(Form::Bbcode, "send-bbcode"), (Form::Markdown, "send-markdown"), (Form::Plain, "send-plain")] {
            session.press(id).await?;
            let expected =
                Post { form, system: System::Metric, page: url, calculator: clutch, translate: str::to_owned }.report(&link, &report);
            session.until(&format!("document.getElementById('send-text').value === {}", quoted(&expected))).await?;
        }
        // Too long for a camera: said, not drawn.
        session.press("close-send").await?;
        let rows = (1..=200).map(|row| row.to_string()).collect::<Vec<_>>().join(".");
        let named =
            (15..=200_u64).map(|row| format!("/wiring.circuits.{row}.name=Lamp-{}", row * row * 7919 % 1_000_003)).collect::<String>();
        session.value(&format!("void (location.hash = {})", quoted(&format!("1.1/wiring.circuits={rows}{named}/end")))).await?;
        session.until("!!document.getElementById('visit')").await?;
        session.press("open-send").await?;
        session.press("send-qr-title").await?;
        session.says("send-qr", "too many for a telephone").await?;
        ensure!(session.value("document.querySelectorAll('#send-qr svg').length").await? == json!(0));
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_sent_car_arrives() -> Result<()> {
    with_app("#clutch", async |session, url| {
        session.type_in(OWN, "7/8 in").await?;
        session.type_in("clutch.pedal-ratio", "5,5").await?;
        session.press("open-send").await?;
        session.enter("send-note", "für Ö & <you>").await?;
        session.until("document.getElementById('send-link').value.includes('/note=')").await?;
        // What was copied is told until it is another.
        let told = "[...document.querySelectorAll('#send [role=status]')].map((it) => it.textContent).join('')";
        session.press("copy-link").await?;
        session.until(&format!("{told} !== ''")).await?;
        session.enter("send-note", "für Ö").await?;
        session.until(&format!("{told} === ''")).await?;
        session.enter("send-note", "für Ö & <you>").await?;
        session.until("document.getElementById('send-link').value.includes('you')").await?;
        let sent = session.field("send-link").await?;
        let words = session.field("send-text").await?;
        ensure!(words.contains(&sent) && words.contains("at the pedal"), "{words}");
        let (page, text) = sent.split_once('#').context("no fragment")?;
        ensure!(page == url, "{page}");
        let opened = link::read(text)?;
        ensure!(opened.problems.is_empty() && opened.link.note == "für Ö & <you>", "{opened:?}");
        ensure!(opened.link.build == desk::kept(session.kept_text(KEPT).await?)?);
        session.press("close-send").await
    })
    .await
}

/// Cars of links without a name are told apart; what differs is listed as given first.
#[tokio::test]
async fn nameless_cars_are_told_apart_and_what_they_bring_comes_first() -> Result<()> {
    with_app("#clutch", async |session, _| {
        session.press("clear-demo").await?;
        for (link, name) in [("1.1/clutch.slave-bore=25.4/end", "From a link"), ("1.1/clutch.slave-bore=20.6375/end", "From a link 2")] {
            open(session, link).await?;
            session.element("visit-differs").await?;
            session.value("void (document.getElementById('visit-differs').open = true)").await?;
            session.until("document.querySelector('#visit-differs li')?.textContent.startsWith('Slave bore: ') === true").await?;
            // From what to what, or who gave it where that alone differs.
            let says = "(it) => it.textContent.includes('→') || it.textContent.endsWith(', as usual.')";
            session.until(&format!("[...document.querySelectorAll('#visit-differs .ticks li')].every({says})")).await?;
            session.until("!document.getElementById('visit-differs').textContent.includes('“”')").await?;
            session.press("keep-both").await?;
            session.says("car-name", name).await?;
        }
        // A method that was cited is the title's no more once its link is put away.
        open(session, "1.1/clutch.slave-bore=25.4/show=clutch.whole-method/end").await?;
        session.until("document.title.includes('method')").await?;
        session.press("keep-mine").await?;
        session.until("document.title === 'Clutch · From a link 2 · Trialfit'").await
    })
    .await
}

/// The place of a key in the usual car.
fn place(key: &str) -> Result<Place> {
    Build::default().layout().place_by_key(key).with_context(|| format!("no {key}"))
}

/// An SI value of a place as the tools write it.
fn written(key: &str, value: f64) -> Result<String> {
    let Kind::Quantity { unit, .. } = Build::default().layout().kind(place(key)?.id) else { anyhow::bail!("no quantity") };
    Ok(show::answer(value, unit, 3).to_string())
}

/// The tool is open, its heading has the focus and is in sight.
async fn opens(session: &Session, tool: &str) -> Result<()> {
    session
        .until(&format!(
            "document.activeElement?.closest('#{tool}, #{tool} > summary') && document.getElementById('{tool}').open !== false"
        ))
        .await?;
    // What it shows comes a moment later, and then it is brought into sight once more.
    tokio::time::sleep(std::time::Duration::from_millis(250)).await;
    session.until("((it) => it.top >= 0 && it.top < innerHeight / 2)(document.activeElement.getBoundingClientRect())").await
}

#[tokio::test]
async fn a_link_opens_straight_into_a_sweep_and_is_sent_again() -> Result<()> {
    let text = "1.1/clutch.slave-bore=20.6375/show=sweep/turn=clutch.slave-bore/watch=clutch.pedal-force/from=18/to=1in\
                /b2/clutch.pedal-ratio=5.5/end";
    with_app(&format!("#{text}"), async |session, _| {
        opens(session, "sweep").await?;
        ensure!(session.field("sweep-input").await? == "clutch.slave-bore" && session.field("sweep-from").await? == "18");
        ensure!(session.field("sweep-output").await? == "clutch.pedal-force" && session.field("sweep-to").await? == "25.4");
        let build = desk::opened(text)?;
        let sweep = Sweep::new(&PLAN, &build, place("clutch.slave-bore")?, [18e-3, 25.4e-3], &[place("clutch.pedal-force")?], 160)
            .map_err(|why| anyhow::anyhow!("{why:?}"))?;
        let band = done(&PLAN, sweep, 1000).finding(&build);
        // The finding's numbers, in their order, stand in what the page says.
        let numbers = band.pieces.iter().filter_map(|piece| match piece {
            Piece::Figure { value, unit, digits } => Some(show::figure(*value, unit, *digits, System::Metric).number),
            Piece::Words(_) => None,
        });
        let numbers: Vec<String> = numbers.collect();
        ensure!(numbers.len() >= 2, "no band in {band:?}");
        session.until("!!document.querySelector('#sweep .found')").await?;
        let said = session.string("document.querySelector('#sweep .found').textContent").await?;
        ensure!(numbers.iter().all(|number| said.contains(number)), "{said} has not {numbers:?}");
        // What came held lies under it.
        session.until("!!document.querySelector('#sweep .ink-fitted') && !!document.querySelector('#sweep .ink-curve')").await?;
        // As it is set now, it can be sent on.
        session.type_in("sweep-from", "17").await?;
        session.press("open-send").await?;
        session.choose("send-show", "sweep").await?;
        session.until("document.getElementById('send-link').value.includes('/from=17/')").await?;
        let sent = session.field("send-link").await?;
        let opened = link::read(&sent)?;
        let asked = opened.link.asked.context("no tool")?;
        ensure!(opened.problems.is_empty() && asked.tool == Tool::Sweep && asked.range == [Some(17e-3), Some(25.4e-3)], "{opened:?}");
        ensure!(asked.turn == Some(place("clutch.slave-bore")?) && asked.watch == Some(place("clutch.pedal-force")?));
        ensure!(opened.link.held == link::read(text)?.link.held && opened.link.held.len() == 1);
        // Unless it is not to be.
        session.press("send-held").await?;
        session.until("!document.getElementById('send-link').value.includes('/b2/')").await?;
        session.press("close-send").await
    })
    .await
}

#[tokio::test]
async fn a_link_opens_straight_into_a_spread() -> Result<()> {
    let text = "1.1/bonnet-line.height=60/bonnet-line.height.pm=2/show=spread/watch=bonnet-line.least/end";
    with_app(&format!("#{text}"), async |session, _| {
        opens(session, "spread").await?;
        let spread = Spread::new(&PLAN, &desk::opened(text)?, &[place("bonnet-line.least")?], SAMPLES, SEED)
            .map_err(|_| anyhow::anyhow!("a tolerance is unknown"))?;
        let found = done(&PLAN, spread, 1000);
        session.until("!!document.querySelector('#spread .found')").await?;
        let said = session.string("document.querySelector('#spread .found').textContent").await?;
        for share in [0.05, 0.5, 0.95] {
            let value = written("bonnet-line.least", found.outcomes[0].quantile(share).context("no samples")?)?;
            ensure!(said.contains(&value), "{said} has no {value}");
        }
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_link_opens_straight_into_a_solution_and_a_map() -> Result<()> {
    with_app("#1.1/show=solve/watch=clutch.pedal-force/turn=clutch.slave-bore/target=120/end", async |session, _| {
        opens(session, "solve").await?;
        session
            .until(&format!(
                "document.querySelector('#solve .takes li')?.textContent.includes({})",
                quoted(&written("clutch.pedal-force", 120.0)?)
            ))
            .await?;
        // Another link in the same page, on the same screen.
        open(session, "1.1/show=map/turn=clutch.master-bore/across=clutch.slave-bore/across-from=18/across-to=26/from=14/to=22/end")
            .await?;
        opens(session, "map").await?;
        for (field, value) in [("map-left", "18"), ("map-right", "26"), ("map-low", "14"), ("map-high", "22")] {
            ensure!(session.field(field).await? == value, "{field}");
        }
        session.until("!!document.querySelector('#map .plot-sheet path')").await
    })
    .await
}

/// What is held comes with the car of a link, and one's own comes back with one's own car.
#[tokio::test]
async fn a_link_opens_straight_into_a_comparison() -> Result<()> {
    const HELD: &str = "trialfit.held.1";
    let text = "1.1/car.name=Theirs/clutch.slave-bore=20.6375/show=beside/b2/clutch.slave-bore=22.225/end";
    let row = |key: &str| format!("document.querySelector('#beside [data-key=\"{key}\"]')?.textContent.replace(/\\s/g, ' ')");
    with_app("#clutch", async |session, _| {
        session.type_in(OWN, "23.8125").await?;
        session.go("overview").await?;
        session.press("hold").await?;
        session.go("clutch").await?;
        session.type_in(OWN, "19.05").await?;
        let mine = session.kept_text(HELD).await?.context("nothing held")?;
        ensure!(mine.contains("23.8125"), "{mine}");
        open(session, text).await?;
        opens(session, "beside").await?;
        let force = |build: &Build| -> Result<String> {
            let mut report = Report::new(build);
            PLAN.evaluate(build, &mut report);
            let place = place("clutch.pedal-force")?;
            let value = report.value(place).map_err(|why| anyhow::anyhow!("{why:?}"))?;
            Ok(show::cell(build.layout().spec(place.id), value, System::Metric).number)
        };
        let opened = link::read(text)?.link;
        let (was, is) = (force(&opened.held[0])?, force(&opened.build)?);
        ensure!(was != is);
        session
            .until(&format!("((it) => it?.includes('{was}') && it.includes('→') && it.includes('{is}'))({})", row("clutch.pedal-force")))
            .await?;
        ensure!(session.kept_text(HELD).await?.as_ref() == Some(&mine), "what I hold was written over");
        session.press("keep-mine").await?;
        session.until("document.querySelector('#beside .differs')?.textContent.includes('23.8125')").await?;
        ensure!(session.kept_text(HELD).await?.as_ref() == Some(&mine));
        // Taken with their car, theirs is held.
        open(session, text).await?;
        opens(session, "beside").await?;
        session.press("take-theirs").await?;
        let held = link::read(&session.kept_text(HELD).await?.context("nothing held")?)?.link.build;
        ensure!(held == opened.held[0], "theirs is not held");
        // Kept beside one's own, each has what is held for it.
        open(session, &text.replace("22.225", "25.4")).await?;
        opens(session, "beside").await?;
        session.press("keep-both").await?;
        session.until("localStorage.getItem('trialfit.held.2')?.includes('25.4') === true").await?;
        session.until("document.querySelector('#beside .differs')?.textContent.includes('25.4')").await?;
        ensure!(link::read(&session.kept_text(HELD).await?.context("nothing held")?)?.link.build == opened.held[0]);
        // One that came with nothing held has nothing.
        open(session, &text.replace("b2/clutch.slave-bore=22.225/", "")).await?;
        opens(session, "beside").await?;
        session.press("keep-both").await?;
        session.until("!document.getElementById('let-go') && !localStorage.getItem('trialfit.held.3')").await?;
        ensure!(session.kept_text("trialfit.held.2").await?.is_some());
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_shelf_beside_the_app_comes_with_a_link() -> Result<()> {
    let fitted = Fitted { shelf: "demo".into(), slot: "slave-cylinder".into(), id: "slave-13-16".into(), name: "".into() };
    let with = |shelf: &str| -> Result<String> {
        let mut build = Build::default();
        let part = build.fit(fitted.clone()).map_err(|why| anyhow::anyhow!("{why:?}"))?;
        build.set_from_part(place(OWN)?, 20.6375e-3, part).map_err(|why| anyhow::anyhow!("{why:?}"))?;
        Ok(link::write(&Link { shelf: shelf.into(), asked: Some(Asked::of(Tool::Parts)), ..build.into() }))
    };
    let shelf = "!!document.querySelector('#parts [data-shelf=demo]')";
    with_app(&format!("#{}", with("demo-shelf.json")?), async |session, _| {
        opens(session, "parts").await?;
        session.until(shelf).await?;
        session.until("!document.querySelector('#parts .problem') && !document.getElementById('visit-problems')").await?;
        ensure!(session.kept_text("trialfit.shelf.demo").await?.is_none(), "a link alone was kept");
        session.press("keep-mine").await?;
        session.until(&format!("!({shelf})")).await?;
        open(session, &with("demo-shelf.json")?).await?;
        opens(session, "parts").await?;
        session.until(shelf).await?;
        session.press("take-theirs").await?;
        session.until(shelf).await?;
        ensure!(session.kept_text("trialfit.shelf.demo").await?.is_some(), "not kept with the car");
        Ok(())
    })
    .await?;
    // One that is not there: said, and the rest stands. So does one that is no shelf.
    for (address, gone) in [("no-shelf.json", true), ("index.html", false)] {
        with_app("", async |session, _| {
            let text = with(address)?;
            open(session, &text).await?;
            opens(session, "parts").await?;
            session.until("!!document.querySelector('#parts .problem')").await?;
            if gone {
                session.until(&format!("document.getElementById('visit-problems')?.textContent.includes('{address}')")).await?;
            }
            session.go("clutch").await?;
            ensure!(session.field(OWN).await? == "20.6375");
            shows(session, &desk::opened(&text)?).await
        })
        .await?;
    }
    Ok(())
}
