//! The main paths, in every engine that is here.

use crate::desk;
use crate::engine::Engine;
use crate::house::{NEXT, ROOT, come_back, publish_next};
use crate::page::{PHONE, screens};
use crate::session::{Folder, Session, in_engine};
use anyhow::{Context, Result, ensure};
use std::path::Path;
use trialfit_bundle::server::Server;
use trialfit_core::show::System;

const BORE: &str = "clutch.slave-bore";

macro_rules! in_every_engine {
    ($($path:ident)*) => { in_every_engine!(chromium Chromium: $($path)*); in_every_engine!(firefox Firefox: $($path)*);
        in_every_engine!(webkit WebKit: $($path)*); };
    ($name:ident $engine:ident: $($path:ident)*) => {
        mod $name {
            $(#[tokio::test]
            async fn $path() -> anyhow::Result<()> {
                super::walk(super::Engine::$engine, async |session, app, server| super::$path(session, app, server).await).await
            })*
        }
    };
}

in_every_engine! { first_run a_value_typed a_choice_changed a_link_opened loaded_again without_a_server a_newer_version_taken }

/// Walks a path in an engine; fails too if anything went wrong in the page unseen.
async fn walk(engine: Engine, path: impl AsyncFn(&Session, &Path, Server) -> Result<()>) -> Result<()> {
    if !engine.is_here() {
        eprintln!("{engine:?} IS NOT TRIED: it is not here");
        return Ok(());
    }
    let app = Folder::with_app_that_reports()?;
    let server = Server::start(&app.0, 0)?;
    in_engine(engine, PHONE.0, PHONE.1, async |session| {
        path(session, &app.0, server).await?;
        session.nothing_wrong().await
    })
    .await
}

async fn answers(session: &Session, text: &str) -> Result<()> {
    session.says("answer-spoken", &desk::answer(text, "clutch")?).await.with_context(|| text.to_owned())
}

async fn first_run(session: &Session, _: &Path, server: Server) -> Result<()> {
    session.start(&server.url()).await?;
    ensure!(session.words("demo").await?.contains("Demo car, not yours"));
    for calculator in screens() {
        session.go(calculator).await?;
        session.says("answer-spoken", &desk::answer("1.1/end", calculator)?).await?;
        if calculator != "car" {
            session.until("document.querySelectorAll('.drawing svg *').length > 10").await.context(calculator)?;
        }
    }
    // In one column, whatever the width this engine's window has.
    session.until("document.documentElement.scrollWidth <= innerWidth").await
}

async fn a_value_typed(session: &Session, _: &Path, server: Server) -> Result<()> {
    session.start(&format!("{}#clutch", server.url())).await?;
    answers(session, "1.1/end").await?;
    session.enter(BORE, "20,64").await?;
    answers(session, "1.1/clutch.slave-bore=20.64/end").await?;
    session.enter(BORE, "7/8 in").await?;
    // An inch is 25.4 mm exactly (international yard and pound agreement, 1959).
    answers(session, "1.1/clutch.slave-bore=22.225/end").await?;
    session.leave().await?;
    session.press("undo").await?;
    answers(session, "1.1/end").await
}

async fn a_choice_changed(session: &Session, _: &Path, server: Server) -> Result<()> {
    session.start(&format!("{}#clutch", server.url())).await?;
    let before = session.answer().await?;
    session.press("choice-more").await?;
    let after = session.other_answer(&before).await?;
    let kept = desk::kept(session.kept_text("trialfit.build.1").await?)?;
    ensure!(after == desk::spoken(&kept, "clutch", System::Metric)?, "{after}");
    session.press("undo").await?;
    session.says("answer-spoken", &before).await
}

async fn a_link_opened(session: &Session, _: &Path, server: Server) -> Result<()> {
    let url = server.url();
    session.start(&format!("{url}#1.1/clutch.slave-bore=20.6375/clutch.pedal-ratio=5.5/show=clutch.pedal-ratio/end")).await?;
    answers(session, "1.1/clutch.slave-bore=20.6375/clutch.pedal-ratio=5.5/end").await?;
    ensure!(session.field("clutch.pedal-ratio").await? == "5.5");
    // Into a page that is open as well, as from a message beside it.
    session.value("void (location.hash = '1.1/clutch.slave-bore=23.8125/show=clutch.slave-bore/end')").await?;
    answers(session, "1.1/clutch.slave-bore=23.8125/end").await
}

async fn loaded_again(session: &Session, _: &Path, server: Server) -> Result<()> {
    session.start(&format!("{}#clutch", server.url())).await?;
    session.type_in(BORE, "15/16 in").await?;
    answers(session, "1.1/clutch.slave-bore=23.8125/end").await?;
    session.reload().await?;
    answers(session, "1.1/clutch.slave-bore=23.8125/end").await?;
    ensure!(session.field(BORE).await?.starts_with("23.81"));
    Ok(())
}

async fn without_a_server(session: &Session, _: &Path, server: Server) -> Result<()> {
    session.start(&format!("{}#clutch", server.url())).await?;
    session.type_in(BORE, "20.6375").await?;
    session.kept().await?;
    server.stop();
    session.reload().await?;
    answers(session, "1.1/clutch.slave-bore=20.6375/end").await?;
    session.type_in(BORE, "22.2").await?;
    answers(session, "1.1/clutch.slave-bore=22.2/end").await
}

async fn a_newer_version_taken(session: &Session, app: &Path, server: Server) -> Result<()> {
    session.start(&format!("{}#clutch", server.url())).await?;
    session.kept().await?;
    session.enter(BORE, "20.6").await?;
    publish_next(app, &["index.html", "sw.js"])?;
    come_back(session).await?;
    session.element("take-update").await?;
    // Nothing is taken from under the hands; what was typed comes along.
    session.driver.active_element().await?.send_keys("375").await?;
    answers(session, "1.1/clutch.slave-bore=20.6375/end").await?;
    session.press("take-update").await?;
    session.until(&format!("{ROOT}.version === '{NEXT}'")).await?;
    session.started().await?;
    answers(session, "1.1/clutch.slave-bore=20.6375/end").await?;
    ensure!(session.string("location.hash").await? == "#clutch", "the place was lost");
    server.stop();
    session.reload().await?;
    ensure!(session.string(&format!("{ROOT}.version")).await? == NEXT);
    answers(session, "1.1/clutch.slave-bore=20.6375/end").await
}
