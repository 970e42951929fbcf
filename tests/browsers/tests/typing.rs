//! What people type, and the settings the page remembers.

use crate::desk;
use crate::page::with_app;
use crate::session::Session;
use anyhow::{Result, ensure};
use trialfit_core::show::System;

const BORE: &str = "clutch.slave-bore";

#[tokio::test]
async fn numbers_are_taken_as_people_write_them() -> Result<()> {
    with_app("#clutch", async |session, _| {
        // As typed, and the millimetres it means; an inch is 25.4 mm exactly (international yard and pound agreement, 1959).
        let typed = [
            ("20,64", "20.64"),
            ("19.05 mm", "19.05"),
            ("7/8 in", "22.225"),
            ("15/16\"", "23.8125"),
            ("2 cm", "20"),
            ("20 + 2.2", "22.2"),
            ("(21+23)/2 mm", "22"),
            ("0,875in", "22.225"),
        ];
        for (text, millimetres) in typed {
            session.enter(BORE, text).await?;
            let expected = desk::answer(&format!("1.1/{BORE}={millimetres}/end"), "clutch")?;
            session.says("answer-spoken", &expected).await.map_err(|why| why.context(text))?;
            ensure!(session.value(&format!("document.getElementById('{BORE}').ariaInvalid")).await?.is_null(), "{text} was refused");
            ensure!(session.field(BORE).await? == text, "what is typed was changed under the hands");
        }
        // Beside a unit of its own stands neither another nor the same again, but what is in force.
        session.enter(BORE, "7/8 in").await?;
        session.until("(/^Slave bore22.225.mm/u).test(document.querySelector('.choice .line').textContent)").await?;
        session.enter(BORE, "22.225").await?;
        session.until("(/^Slave boremm7\\/8.in/u).test(document.querySelector('.choice .line').textContent)").await
    })
    .await
}

#[tokio::test]
async fn an_answer_changes_with_every_key() -> Result<()> {
    with_app("#front-drive", async |session, _| {
        let before = session.answer().await?;
        session.enter("front-drive.alternator-pulley", "55").await?;
        let smaller = session.other_answer(&before).await?;
        ensure!(smaller == desk::answer("1.1/front-drive.alternator-pulley=55/end", "front-drive")?, "{smaller}");
        session.driver.active_element().await?.send_keys(".5").await?;
        let next = session.other_answer(&smaller).await?;
        ensure!(next == desk::answer("1.1/front-drive.alternator-pulley=55.5/end", "front-drive")?, "{next}");
        Ok(())
    })
    .await
}

async fn choose_in_menu(session: &Session, id: &str) -> Result<()> {
    session.press("open-menu").await?;
    session.press(id).await?;
    session.press("close-menu").await?;
    session.until("!document.querySelector('dialog[open]')").await
}

#[tokio::test]
async fn units_and_colours_are_remembered() -> Result<()> {
    with_app("#clutch", async |session, _| {
        session.prefer("light").await?;
        let demo = desk::opened("1.1/end")?;
        choose_in_menu(session, "units-imperial").await?;
        let imperial = desk::spoken(&demo, "clutch", System::Imperial)?;
        ensure!(imperial.contains("pound"), "{imperial}");
        session.says("answer-spoken", &imperial).await?;
        // Bare numbers are now inches, and what was kept is still the same bore.
        session.type_in(BORE, "0.875").await?;
        session.says("answer-spoken", &imperial).await?;
        ensure!(session.string(&format!("document.querySelector('label[for=\"{BORE}\"]').textContent")).await?.contains("in"));

        let paper = "getComputedStyle(document.body).backgroundColor";
        let light = session.string(paper).await?;
        choose_in_menu(session, "colours-dark").await?;
        session.until(&format!("{paper} !== '{light}'")).await?;
        let dark = session.string(paper).await?;
        session.reload().await?;
        session.says("answer-spoken", &imperial).await?;
        ensure!(session.string(paper).await? == dark, "the colours were forgotten");

        choose_in_menu(session, "units-metric").await?;
        choose_in_menu(session, "colours-device").await?;
        session.says("answer-spoken", &desk::answer("1.1/end", "clutch")?).await?;
        session.until(&format!("{paper} === '{light}'")).await?;
        session.prefer("dark").await?;
        session.until(&format!("{paper} === '{dark}'")).await
    })
    .await
}

/// As with a phone's own way back.
#[tokio::test]
async fn a_screen_can_be_left_from_within_a_field_or_a_handle() -> Result<()> {
    with_app("#front-drive", async |session, _| {
        session.go("clutch").await?;
        session.enter(BORE, "20.6375").await?;
        session.value("history.back()").await?;
        session.until("document.querySelector('.screen').dataset.calculator === 'front-drive'").await?;
        session.nothing_wrong().await?;
        session.value("document.querySelector('.drawing-handle').focus()").await?;
        session.value("history.forward()").await?;
        session.until("document.querySelector('.screen').dataset.calculator === 'clutch'").await?;
        session.nothing_wrong().await?;
        session.says("answer-spoken", &desk::answer(&format!("1.1/{BORE}=20.6375/end"), "clutch")?).await
    })
    .await
}
