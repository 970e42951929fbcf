//! What the device keeps: through loading again, without a server, with a damaged, full or blocked store, in two tabs.

use crate::desk;
use crate::page::{quoted, with_app};
use crate::session::{Session, dist, in_browser};
use anyhow::{Context, Result, ensure};
use trialfit_bundle::server::Server;
use trialfit_core::show::System;

const KEPT: &str = "trialfit.build.1";
const BORE: &str = "clutch.slave-bore";

/// Storage without room, until `window.emptied()`.
const FULL: &str = "{ const set = Storage.prototype.setItem; \
    Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }; \
    window.emptied = () => { Storage.prototype.setItem = set; }; }";

/// Storage that the reader does not allow.
const BLOCKED: &str = "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('no', 'SecurityError'); } });";

/// A tab that hears nothing of others, nor looks for itself, while `window.deaf` is set.
pub(crate) const DEAF: &str = "for (const kind of ['storage', 'visibilitychange']) \
    addEventListener(kind, (event) => { if (window.deaf) event.stopImmediatePropagation(); }, true);";

async fn answers(session: &Session, text: &str) -> Result<()> {
    session.says("answer-spoken", &desk::answer(text, "clutch")?).await.with_context(|| text.to_owned())
}

#[tokio::test]
async fn loading_again_keeps_everything_with_and_without_a_server() -> Result<()> {
    let server = Server::start(&dist()?, 0)?;
    let url = server.url();
    in_browser(360, 740, async |session| {
        session.start(&format!("{url}#car")).await?;
        session.type_in("car.name", "Blue two-seater").await?;
        session.press("car.gears.add").await?;
        session.until("!!document.getElementById('car.gears.6.ratio')").await?;
        session.type_in("car.gears.6.ratio", "0.7").await?;
        session.press("car.torque.8.remove").await?;
        session.go("clutch").await?;
        session.type_in(BORE, "15/16 in").await?;
        session.press("clutch.master-bore.more").await?;
        session.press("clutch.master-bore.not-given").await?;
        let kept = desk::kept(session.kept_text(KEPT).await?)?;
        let answer = desk::spoken(&kept, "clutch", System::Metric)?;
        session.says("answer-spoken", &answer).await?;
        session.reload().await?;
        session.says("answer-spoken", &answer).await?;
        ensure!(desk::kept(session.kept_text(KEPT).await?)? == kept);

        session.kept().await?;
        server.stop();
        session.reload().await?;
        session.says("answer-spoken", &answer).await?;
        session.says("car-name", "Blue two-seater").await?;
        session.type_in("clutch.master-bore", "3/4 in").await?;
        let next = session.other_answer(&answer).await?;
        session.driver.goto("about:blank").await?;
        session.start(&format!("{url}#clutch")).await?;
        session.says("answer-spoken", &next).await?;
        let later = desk::kept(session.kept_text(KEPT).await?)?;
        ensure!(next == desk::spoken(&later, "clutch", System::Metric)? && later != kept);
        session.go("car.gears.6.ratio").await?;
        ensure!(session.field("car.gears.6.ratio").await? == "0.7");
        ensure!(session.value("!document.getElementById('car.torque.8.speed')").await? == true, "a removed row came back");
        session.nothing_wrong().await
    })
    .await
}

#[tokio::test]
async fn a_damaged_store_gives_what_it_can_and_puts_the_rest_aside() -> Result<()> {
    with_app("#clutch", async |session, _| {
        // The text, and what of it still stands.
        let damaged = [
            (
                "Trialfit build 1\nname: Half\nrevision: 3\n1.1/car.idle=900/clutch.slave-bore=~~/clutch.pedal-ratio=5.5/end\n",
                "1.1/clutch.pedal-ratio=5.5/end",
            ),
            ("Trialfit build 1\nname: Cut\nrevision: 3\n1.1/clutch.pedal-ratio=5.5/clutch.slave-b", "1.1/clutch.pedal-ratio=5.5/end"),
            ("\u{0}\u{1}not a build at all", "1.1/end"),
            ("", "1.1/end"),
        ];
        for (number, (text, stands)) in damaged.into_iter().enumerate() {
            session.value(&format!("localStorage.setItem('{KEPT}', {})", quoted(text))).await?;
            session.reload().await?;
            answers(session, stands).await?;
            session.says("damaged", "damaged").await.with_context(|| format!("{text:?}"))?;
            let aside = format!("trialfit.damaged.{}", number + 1);
            ensure!(session.kept_text(&aside).await?.as_deref() == Some(text), "{text:?} was not put aside");
            // One goes on working, and the text put aside stays.
            session.type_in(BORE, "20.6375").await?;
            answers(session, &stands.replace("1.1/", "1.1/clutch.slave-bore=20.6375/")).await?;
            ensure!(session.kept_text(&aside).await?.as_deref() == Some(text), "{text:?} was written over");
            desk::kept(session.kept_text(KEPT).await?)?;
        }
        // It can be had from the menu.
        session.press("open-menu").await?;
        ensure!(session.field("trialfit-damaged-1").await?.contains("clutch.slave-bore=~~"));
        session.press("close-menu").await
    })
    .await
}

#[tokio::test]
async fn a_full_store_says_so_and_loses_nothing_on_the_screen() -> Result<()> {
    with_app("#clutch", async |session, _| {
        session.type_in(BORE, "20.6375").await?;
        let before = session.kept_text(KEPT).await?;
        session.before_load(FULL).await?;
        session.reload().await?;
        answers(session, "1.1/clutch.slave-bore=20.6375/end").await?;
        session.type_in(BORE, "23.8125").await?;
        session.says("not-kept", "no room").await?;
        answers(session, "1.1/clutch.slave-bore=23.8125/end").await?;
        session.type_in("clutch.pedal-ratio", "5.5").await?;
        answers(session, "1.1/clutch.slave-bore=23.8125/clutch.pedal-ratio=5.5/end").await?;
        ensure!(session.kept_text(KEPT).await? == before, "what was kept was lost");
        // It can still be sent to oneself.
        session.press("open-send").await?;
        let sent = session.field("send-link").await?;
        let sent = sent.split_once('#').context("no fragment")?.1;
        ensure!(desk::opened(sent)? == desk::opened("1.1/clutch.slave-bore=23.8125/clutch.pedal-ratio=5.5/end")?);
        session.press("close-send").await?;
        // With room again, all of it is kept and nothing more is said.
        session.value("window.emptied()").await?;
        session.type_in("clutch.free-play", "5").await?;
        session.until("!document.getElementById('not-kept')").await?;
        let kept = desk::kept(session.kept_text(KEPT).await?)?;
        ensure!(kept == desk::opened("1.1/clutch.slave-bore=23.8125/clutch.pedal-ratio=5.5/clutch.free-play=5/end")?);
        Ok(())
    })
    .await
}

#[tokio::test]
async fn a_blocked_store_says_so_and_the_page_works() -> Result<()> {
    with_app("", async |session, _| {
        session.before_load(BLOCKED).await?;
        session.reload().await?;
        session.says("not-kept", "keep nothing").await?;
        session.go("clutch").await?;
        session.type_in(BORE, "23.8125").await?;
        answers(session, "1.1/clutch.slave-bore=23.8125/end").await?;
        session.press("open-menu").await?;
        session.press("units-imperial").await?;
        session.press("close-menu").await?;
        let imperial = desk::spoken(&desk::opened("1.1/clutch.slave-bore=23.8125/end")?, "clutch", System::Imperial)?;
        session.says("answer-spoken", &imperial).await
    })
    .await
}

#[tokio::test]
async fn two_tabs_on_one_car_keep_both() -> Result<()> {
    with_app("#clutch", async |session, url| {
        let driver = &session.driver;
        session.type_in(BORE, "20.6375").await?;
        let [first, second] = session.second_tab().await?;
        session.before_load(DEAF).await?;
        session.start(&format!("{url}#clutch")).await?;
        answers(session, "1.1/clutch.slave-bore=20.6375/end").await?;

        // What one tab changes the other shows, and undo there brings its own back.
        session.type_in(BORE, "23.8125").await?;
        driver.switch_to_window(first.clone()).await?;
        answers(session, "1.1/clutch.slave-bore=23.8125/end").await?;
        session.says("adopted", "another tab").await?;
        session.press("undo").await?;
        answers(session, "1.1/clutch.slave-bore=20.6375/end").await.context("undone")?;
        driver.switch_to_window(second.clone()).await?;
        answers(session, "1.1/clutch.slave-bore=20.6375/end").await?;

        // A tab that did not hear of the other's change writes over nothing.
        session.value("window.deaf = true").await?;
        driver.switch_to_window(first.clone()).await?;
        session.type_in(BORE, "25.4").await?;
        driver.switch_to_window(second).await?;
        session.type_in(BORE, "19.05").await?;
        session.says("copied", "Both are kept").await?;
        answers(session, "1.1/clutch.slave-bore=19.05/end").await?;
        let (theirs, mine) = (desk::kept(session.kept_text(KEPT).await?)?, desk::kept(session.kept_text("trialfit.build.2").await?)?);
        ensure!(theirs == desk::opened("1.1/clutch.slave-bore=25.4/end")?);
        ensure!(desk::spoken(&mine, "clutch", System::Metric)? == desk::answer("1.1/clutch.slave-bore=19.05/end", "clutch")?);
        driver.switch_to_window(first).await?;
        answers(session, "1.1/clutch.slave-bore=25.4/end").await
    })
    .await
}
