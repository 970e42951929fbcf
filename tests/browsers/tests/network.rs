//! Requests: to nowhere else ever, to nowhere at all once the page is there.

use crate::page::{WIDE, screens, with_app_at};
use crate::session::Session;
use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};

/// Addresses asked for since this was last called, by the browser's own record.
async fn requested(session: &Session) -> Result<Vec<String>> {
    let mut urls = Vec::new();
    for entry in session.driver.get_log("performance").await? {
        let message: Value = serde_json::from_str(&entry.message)?;
        let message = &message["message"];
        if message["method"] == "Network.requestWillBeSent" {
            let url = message["params"]["request"]["url"].as_str().context("a request to nowhere")?;
            // The browser's own pages, and what stands in an address itself, go nowhere.
            if !["chrome:", "chrome-untrusted:", "data:", "blob:"].iter().any(|own| url.starts_with(own)) {
                urls.push(url.to_owned());
            }
        }
    }
    Ok(urls)
}

#[tokio::test]
async fn nothing_is_asked_for_once_the_page_is_there() -> Result<()> {
    with_app_at(WIDE, "", async |session, url| {
        session.kept().await?;
        let first = requested(session).await?;
        ensure!(first.len() > 3, "the record of requests does not work: {first:?}");
        ensure!(first.iter().all(|other| other.starts_with(url)), "asked elsewhere: {first:?}");
        let loaded = "performance.getEntriesByType('resource').map((it) => it.name)";
        let before = session.value(loaded).await?;
        ensure!(before.as_array().is_some_and(|list| list.len() > 3), "{before}");

        // Everything a page can be used for.
        for calculator in screens() {
            session.go(calculator).await?;
            session.value("document.querySelectorAll('details').forEach((it) => it.open = true)").await?;
            session.press("choice-more").await?;
            session.press("undo").await?;
        }
        session.go("clutch").await?;
        session.type_in("clutch.slave-bore", "7/8 in").await?;
        session.press("open-send").await?;
        session.enter("send-note", "look").await?;
        session.press("copy-link").await?;
        session.press("close-send").await?;
        session.press("open-menu").await?;
        session.press("units-imperial").await?;
        session.press("colours-dark").await?;
        session.press("another-car").await?;
        session.press("close-menu").await?;
        session.value("void (location.hash = '1.1/clutch.slave-bore=20/note=https.3a.-x/show=clutch.slave-bore/end')").await?;
        session.press("keep-both").await?;
        session.value("new Promise((done) => requestAnimationFrame(() => setTimeout(done)))").await?;

        ensure!(session.value(loaded).await? == before, "the page loaded something more");
        let more = requested(session).await?;
        ensure!(more.is_empty(), "asked for more: {more:?}");
        // Nor could words or a link lead anywhere else by themselves.
        let leads = "[...document.querySelectorAll('[href], [src], [action], [data], [poster]')].map((it) => \
            it.href?.baseVal ?? it.href ?? it.src ?? it.action ?? '').filter((it) => !it.startsWith(location.origin) && !it.startsWith('#'))";
        ensure!(session.value(leads).await? == json!([]));
        Ok(())
    })
    .await
}
