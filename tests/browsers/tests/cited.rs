//! A link to one answer opens at it with its working; of a car that came by link some can be taken.

use crate::desk;
use crate::page::{quoted, with_app};
use crate::session::Session;
use anyhow::{Result, ensure};
use serde_json::json;
use trialfit_core::calculators::{car, clutch};

/// One answer, of a car that differs in three things.
const ANSWER: &str = "1.1/car.idle=900/clutch.slave-bore=20.6375/clutch.pedal-ratio=5.5/show=clutch.pedal-force/end";
const KEPT: &str = "trialfit.build.1";

/// What a link opened at: its key, with its working unfolded and in sight, the focus on it.
async fn opened_at(session: &Session, key: &str) -> Result<()> {
    session.until(&format!("document.querySelector('.pointed-out')?.id === {}", quoted(key))).await?;
    session.until("document.querySelector('.pointed-out').contains(document.activeElement)").await?;
    session.until("!!document.querySelector('.pointed-out ol.working li')").await?;
    ensure!(session.value("document.querySelectorAll('.pointed-out').length").await? == json!(1), "more than one is marked");
    // Its first line stands between the bars.
    session
        .until(
            "(([box, top, bottom]) => box.top >= top - 1 && box.top < bottom)([document.querySelector('.pointed-out .says').getBoundingClientRect(), \
             document.querySelector('.strip').getBoundingClientRect().bottom, document.querySelector('.bar').getBoundingClientRect().top])",
        )
        .await
}

#[tokio::test]
async fn a_link_opens_at_an_answer_with_its_working() -> Result<()> {
    with_app(&format!("#{ANSWER}"), async |session, _| {
        opened_at(session, "clutch.pedal-force").await?;
        // The same number stands in the answer and at the end of its working, in newtons.
        let answer = session.string("document.querySelector('.pointed-out .says .figure').textContent").await?;
        let last = session.string("[...document.querySelectorAll('.pointed-out .working-result b')].at(-1).textContent").await?;
        let number = |text: &str| text.chars().take_while(|it| it.is_ascii_digit() || *it == '.').collect::<String>().parse::<f64>();
        ensure!((number(&answer)? - number(&last)?).abs() < 0.5, "{answer} is not {last}");
        // The answer of a row, which stands folded.
        session.value("void (location.hash = '1.1/show=front-drive.pulleys.2.idle-speed/end')").await?;
        opened_at(session, "front-drive.pulleys.2.idle-speed").await
    })
    .await
}

#[tokio::test]
async fn every_answer_gives_a_link_to_itself() -> Result<()> {
    with_app("#clutch", async |session, _| {
        session.type_in("clutch.slave-bore", "20.6375").await?;
        session.press("clutch.pedal-force.working").await?;
        session.until("!!document.querySelector('[id=\"clutch.pedal-force.cite\"] summary')").await?;
        session.value("void document.querySelector('[id=\"clutch.pedal-force.cite\"] summary').click()").await?;
        let link = session.field("clutch.pedal-force.link").await?;
        ensure!(link.ends_with("#1.1/clutch.slave-bore=20.6375/show=clutch.pedal-force/end"), "{link}");
        session.press("clutch.pedal-force.copy").await?;
        session.until("!!document.querySelector('[id=\"clutch.pedal-force.cite\"] [role=status]').textContent").await?;
        // Opened by somebody else, it is there.
        session.value("localStorage.clear()").await?;
        session.driver.goto("about:blank").await?;
        session.start(&link).await?;
        opened_at(session, "clutch.pedal-force").await?;
        // The window to send from offers answers, those of rows too.
        session.press("keep-mine").await?;
        session.go("front-drive").await?;
        session.press("open-send").await?;
        session.choose("send-show", "front-drive.pulleys.2.idle-speed").await?;
        session.until("document.getElementById('send-link').value.includes('/show=front-drive.pulleys.2.idle-speed/end')").await
    })
    .await
}

#[tokio::test]
async fn some_of_what_a_link_changes_can_be_taken() -> Result<()> {
    with_app("", async |session, _| {
        session.go("clutch").await?;
        session.type_in("clutch.pedal-ratio", "6.5").await?;
        let own = desk::kept(session.kept_text(KEPT).await?)?;
        session.value(&format!("void (location.hash = {})", quoted(ANSWER))).await?;
        session.says("visit-differs", "It differs from yours in 3 things").await?;
        session.value("void document.querySelector('#visit-differs summary').click()").await?;
        // Whose is whose: mine, then the link's.
        session.says("visit-differs", "Pedal ratio: 6.5 → 5.5.").await?;
        session.says("clutch.pedal-ratio.note", "the link's").await?;
        // None, all, then all but the bore.
        session.press("tick-all").await?;
        session.until("document.getElementById('take-some').disabled").await?;
        session.press("tick-all").await?;
        session
            .value("[...document.querySelectorAll('#visit-differs .tick')].find((it) => it.textContent.startsWith('Slave bore')).click()")
            .await?;
        session.says("take-some", "Take 2 of 3").await?;
        session.press("take-some").await?;
        session.until("!document.getElementById('visit') && location.hash === '#clutch'").await?;
        let mut expected = own.clone();
        let theirs = desk::opened("1.1/car.idle=900/clutch.pedal-ratio=5.5/end")?;
        for place in [car::IDLE.id.into(), clutch::PEDAL_RATIO.id.into()] {
            ensure!(expected.set(place, theirs.own_value(place).unwrap_or(f64::NAN)).is_ok());
        }
        ensure!(desk::kept(session.kept_text(KEPT).await?)? == expected, "not what was ticked");
        session.says("answer-spoken", &desk::spoken(&expected, "clutch", Default::default())?).await?;
        session.says("clutch.pedal-ratio.note", "yours").await?;
        // One step.
        session.press("undo").await?;
        session.until(&format!("localStorage.getItem({}) !== null", quoted(KEPT))).await?;
        session.says("answer-spoken", &desk::spoken(&own, "clutch", Default::default())?).await?;
        ensure!(desk::kept(session.kept_text(KEPT).await?)? == own, "undo left something");
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_link_to_ones_own_car_differs_in_nothing() -> Result<()> {
    with_app("#clutch", async |session, _| {
        session.type_in("clutch.slave-bore", "24").await?;
        session.value("void (location.hash = '1.1/clutch.slave-bore=24/show=clutch/end')").await?;
        session.says("visit-differs", "Nothing in it differs from yours.").await?;
        // The bar that says whose it is stays in sight.
        session.value("void scrollTo(0, 1500)").await?;
        session.until("scrollY > 1000 && document.getElementById('visit').getBoundingClientRect().top > 0").await
    })
    .await
}
