//! A browser of its own for each test, with a driver of its own, and a copy of the built app to serve and to alter.

use crate::engine::{Engine, Running};
use anyhow::{Context, Result, bail, ensure};
use serde_json::{Value, json};
use std::{
    env, fs,
    path::{Path, PathBuf},
    sync::atomic::{AtomicUsize, Ordering},
    time::{Duration, Instant},
};
use thirtyfour::{WebDriver, WebDriverRunError};

/// How long anything may take before a test gives up on it.
const PATIENCE: Duration = Duration::from_secs(60);

/// Collects, from before the page's own scripts run, what the content-security policy had to refuse, and what failed.
/// That sizes go on changing while they are told is no failure: the rest is told with the next frame.
const REPORTS: &str = "window.refused = []; addEventListener('securitypolicyviolation', \
    (event) => window.refused.push(event.violatedDirective + ' ' + event.blockedURI)); \
    window.failed = []; const harmless = 'ResizeObserver loop completed'; \
    addEventListener('error', ({ message }) => message.startsWith(harmless) || window.failed.push(message)); \
    const say = console.error; console.error = (...words) => { window.failed.push(words.join(' ')); say(...words); }; \
    addEventListener('unhandledrejection', (event) => window.failed.push(String(event.reason)));";

/// An open browser.
pub(crate) struct Session {
    pub(crate) driver: WebDriver,
    pub(crate) engine: Engine,
    _running: Running,
    _folder: Folder,
}

/// From this width on it is a desk's screen, with a mouse and no touch.
pub(crate) const DESK: u32 = 1000;

/// Runs `test` in a browser with a screen of `width` by `height`, which is closed whatever comes of it.
pub(crate) async fn in_browser(width: u32, height: u32, test: impl AsyncFnOnce(&Session) -> Result<()>) -> Result<()> {
    in_engine(Engine::Chromium, width, height, test).await
}

/// The same in the browser of one's choice.
pub(crate) async fn in_engine(engine: Engine, width: u32, height: u32, test: impl AsyncFnOnce(&Session) -> Result<()>) -> Result<()> {
    let session = Session::open(engine, width, height).await?;
    match session.driver.clone().run_and_quit(|_| test(&session)).await {
        Ok(()) => Ok(()),
        Err(WebDriverRunError::Body(why) | WebDriverRunError::BodyAndCleanup { body: why, .. }) => Err(why),
        Err(WebDriverRunError::Cleanup(why)) => Err(why.into()),
        Err(_) => bail!("the browser could not be closed"),
    }
}

impl Session {
    async fn open(engine: Engine, width: u32, height: u32) -> Result<Self> {
        let folder = Folder::new()?;
        let running = engine.start(&folder.0, width, height)?;
        let driver = WebDriver::new(format!("http://localhost:{}", running.port), running.wanted.clone()).await?;
        let session = Self { driver, engine, _running: running, _folder: folder };
        if engine != Engine::Chromium {
            // As near to that size as it goes: Firefox makes no window narrower than 450.
            session.driver.set_window_rect(0, 0, width, height).await?;
            return Ok(session);
        }
        session.before_load(REPORTS).await?;
        if width >= DESK {
            session.screen(width, height, 1).await?;
        }
        Ok(session)
    }

    /// What `expression` is in the page.
    pub(crate) async fn value(&self, expression: &str) -> Result<Value> {
        let result = self.driver.execute(format!("return {expression};"), Vec::new()).await;
        Ok(result.with_context(|| expression.to_owned())?.json().clone())
    }

    /// What `expression`, a promise, comes to in the page.
    pub(crate) async fn awaited(&self, expression: &str) -> Result<Value> {
        let script = format!("const done = arguments[0]; ({expression}).then(done, (error) => done(String(error)));");
        let result = self.driver.execute_async(script, Vec::new()).await;
        Ok(result.with_context(|| expression.to_owned())?.json().clone())
    }

    /// Waits until `expression` is true in the page; while it loads there may be no page to ask.
    pub(crate) async fn until(&self, expression: &str) -> Result<()> {
        let began = Instant::now();
        loop {
            let last = self.value(expression).await;
            if matches!(last, Ok(Value::Bool(true))) {
                return Ok(());
            }
            if began.elapsed() > PATIENCE {
                bail!("waited in vain for {expression}; last: {last:?}");
            }
            tokio::time::sleep(Duration::from_millis(20)).await;
        }
    }

    /// Opens `url` and waits until the app has taken over the page.
    pub(crate) async fn start(&self, url: &str) -> Result<()> {
        self.driver.goto(url).await?;
        self.started().await
    }

    /// Waits until the app has taken over the page.
    pub(crate) async fn started(&self) -> Result<()> {
        self.until("document.readyState === 'complete' && !document.getElementById('starting') && document.body.innerText.trim() !== ''")
            .await?;
        self.whole().await
    }

    /// Waits until all of the screen is made.
    pub(crate) async fn whole(&self) -> Result<()> {
        self.until("!!document.querySelector('main:not([aria-busy]) .screen')").await
    }

    /// Waits until the app is kept for use offline.
    pub(crate) async fn kept(&self) -> Result<()> {
        self.until("!!navigator.serviceWorker.controller").await
    }

    /// Fails if the content-security policy had to refuse anything on this page.
    pub(crate) async fn nothing_refused(&self) -> Result<()> {
        let refused = self.value("window.refused").await?;
        ensure!(refused == json!([]), "refused by the policy: {refused}");
        Ok(())
    }

    /// Fails if anything was refused, or anything on this page failed unseen.
    pub(crate) async fn nothing_wrong(&self) -> Result<()> {
        self.nothing_refused().await?;
        let failed = self.value("window.failed").await?;
        ensure!(failed == json!([]), "failed in the page: {failed}");
        Ok(())
    }

    /// Runs `script` in every page opened from now on, before the page's own; in Chromium alone.
    pub(crate) async fn before_load(&self, script: &str) -> Result<()> {
        self.ask("Page.addScriptToEvaluateOnNewDocument", json!({ "source": script })).await.map(drop)
    }

    /// Asks the browser itself; Chromium alone answers.
    pub(crate) async fn ask(&self, method: &str, of: Value) -> Result<Value> {
        self.driver.cdp().send_raw(method, of).await.with_context(|| method.to_owned())
    }
}

pub(crate) fn named(variable: &str) -> Result<String> {
    env::var(variable).with_context(|| format!("{variable} is not set: run `cargo verify --only browsers`"))
}

/// A folder for one test, gone with it.
pub(crate) struct Folder(pub(crate) PathBuf);

impl Folder {
    pub(crate) fn new() -> Result<Self> {
        static NEXT: AtomicUsize = AtomicUsize::new(0);
        let number = NEXT.fetch_add(1, Ordering::Relaxed);
        let path = env::temp_dir().join(format!("trialfit-test-{}-{number}", std::process::id()));
        fs::create_dir_all(&path)?;
        Ok(Self(path))
    }

    /// A copy of the built app, to be altered.
    pub(crate) fn with_app() -> Result<Self> {
        let folder = Self::new()?;
        copy_app(&folder.0)?;
        Ok(folder)
    }

    /// A copy that collects itself what goes wrong, for browsers that are not told to by their driver.
    pub(crate) fn with_app_that_reports() -> Result<Self> {
        let folder = Self::with_app()?;
        for file in fs::read_dir(&folder.0)?.collect::<Result<Vec<_>, _>>()? {
            let name = file.file_name().to_string_lossy().into_owned();
            match (name.starts_with("boot-"), name.ends_with(".js")) {
                (true, true) => fs::write(file.path(), format!("{{ {REPORTS} }}\n{}", fs::read_to_string(file.path())?))?,
                (true, false) => fs::remove_file(file.path())?,
                (false, _) => {}
            }
        }
        Ok(folder)
    }
}

impl Drop for Folder {
    fn drop(&mut self) {
        fs::remove_dir_all(&self.0).ok();
    }
}

/// Copies the built app into `folder`.
pub(crate) fn copy_app(folder: &Path) -> Result<()> {
    for file in fs::read_dir(dist()?)? {
        let file = file?;
        fs::copy(file.path(), folder.join(file.file_name()))?;
    }
    Ok(())
}

/// The built app itself.
pub(crate) fn dist() -> Result<PathBuf> {
    named("TRIALFIT_DIST").map(PathBuf::from)
}
