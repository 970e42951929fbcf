//! What a key costs: only what hangs on it is made anew. The time to paint is told, not judged: it is the machine's too.

use crate::page::{screens, with_app};
use crate::session::Session;
use anyhow::{Result, ensure};
use serde_json::json;

/// Counts elements that come and go, and times each input event to after the frame that shows what it did.
const WATCH: &str = "window.made = 0; window.times = []; \
    const count = (nodes) => [...nodes].reduce((sum, node) => sum + 1 + (node.querySelectorAll?.('*').length ?? 0), 0); \
    new MutationObserver((records) => records.forEach((it) => { window.made += count(it.addedNodes) + count(it.removedNodes); })) \
        .observe(document.body, { childList: true, subtree: true }); \
    addEventListener('input', ({ timeStamp }) => requestAnimationFrame(() => { const { port1, port2 } = new MessageChannel(); \
        port1.onmessage = () => window.times.push(performance.now() - timeStamp); port2.postMessage(0); }), true);";

/// Presses a few keys in the first field of a screen; gives the share of the page made anew for each.
async fn pressed(session: &Session, screen: &str) -> Result<f64> {
    session.go(screen).await?;
    let field = session.string("document.querySelector('.card input.number').id").await?;
    session.enter(&field, "").await?;
    session.until("document.querySelectorAll('[aria-invalid=true]').length > 0").await?;
    session.value("void (window.made = 0, window.times.length = 0)").await?;
    for (number, key) in ["6", "0", "0", "0"].into_iter().enumerate() {
        session.driver.active_element().await?.send_keys(key).await?;
        session.until(&format!("window.times.length > {number}")).await?;
    }
    let times = session.value("window.times.map(Math.round).sort((one, other) => one - other)").await?;
    eprintln!("{screen}: a key is painted after {times} ms at a fourth of this machine's speed");
    session.number("window.made / 4 / document.querySelectorAll('*').length").await
}

#[tokio::test]
async fn a_key_makes_little_of_the_page_anew() -> Result<()> {
    with_app("", async |session, _| {
        session.driver.execute(WATCH, Vec::new()).await?;
        session.ask("Emulation.setCPUThrottlingRate", json!({ "rate": 4 })).await?;
        for screen in screens() {
            let share = pressed(session, screen).await?;
            eprintln!("{screen}: {:.1} % of the page is made anew for a key", 100.0 * share);
            ensure!(share < 0.25, "{screen}: {:.0} % of the page is made anew for a key", 100.0 * share);
        }
        Ok(())
    })
    .await
}
