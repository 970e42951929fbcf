//! A browser of its own for each test, with a driver of its own, and a copy of the built app to serve and to alter.

use anyhow::{Context, Result, bail, ensure};
use serde_json::{Value, json};
use std::{
    env, fs,
    io::{BufRead, BufReader},
    path::{Path, PathBuf},
    process::{Child, Command, Stdio},
    sync::atomic::{AtomicUsize, Ordering},
    time::{Duration, Instant},
};
use thirtyfour::{ChromeCapabilities, ChromiumLikeCapabilities, DesiredCapabilities, LoggingPrefsLogLevel, WebDriver, WebDriverRunError};

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
    _process: Driver,
    _folder: Folder,
}

struct Driver(Child);

impl Drop for Driver {
    fn drop(&mut self) {
        self.0.kill().and_then(|()| self.0.wait()).ok();
    }
}

/// From this width on it is a desk's screen, with a mouse and no touch.
pub(crate) const DESK: u32 = 1000;

/// Runs `test` in a browser with a screen of `width` by `height`, which is closed whatever comes of it.
pub(crate) async fn in_browser(width: u32, height: u32, test: impl AsyncFnOnce(&Session) -> Result<()>) -> Result<()> {
    let session = Session::open(width, height).await?;
    match session.driver.clone().run_and_quit(|_| test(&session)).await {
        Ok(()) => Ok(()),
        Err(WebDriverRunError::Body(why) | WebDriverRunError::BodyAndCleanup { body: why, .. }) => Err(why),
        Err(WebDriverRunError::Cleanup(why)) => Err(why.into()),
        Err(_) => bail!("the browser could not be closed"),
    }
}

impl Session {
    async fn open(width: u32, height: u32) -> Result<Self> {
        let folder = Folder::new()?;
        let mut process = Driver(
            Command::new(named("TRIALFIT_CHROMEDRIVER")?)
                .arg("--port=0")
                .stdout(Stdio::piped())
                .stderr(Stdio::null())
                .spawn()
                .context("chromedriver did not start")?,
        );
        let said = BufReader::new(process.0.stdout.take().context("no output")?);
        let port = said.lines().map_while(Result::ok).find_map(|line| port_in(&line));
        let port = port.context("chromedriver did not say its port")?;
        let driver = WebDriver::new(format!("http://localhost:{port}"), capabilities(&folder.0, width, height)?).await?;
        let session = Self { driver, _process: process, _folder: folder };
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
            .await
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

    /// Runs `script` in every page opened from now on, before the page's own.
    pub(crate) async fn before_load(&self, script: &str) -> Result<()> {
        self.ask("Page.addScriptToEvaluateOnNewDocument", json!({ "source": script })).await.map(drop)
    }

    /// Asks the browser itself.
    pub(crate) async fn ask(&self, method: &str, of: Value) -> Result<Value> {
        self.driver.cdp().send_raw(method, of).await.with_context(|| method.to_owned())
    }
}

fn capabilities(profile: &Path, width: u32, height: u32) -> Result<ChromeCapabilities> {
    let mut chrome = DesiredCapabilities::chrome();
    chrome.set_binary(&named("TRIALFIT_CHROMIUM")?)?;
    for argument in [
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
    ] {
        chrome.add_arg(argument)?;
    }
    chrome.add_arg(&format!("--user-data-dir={}", profile.display()))?;
    // For the record of requests.
    chrome.set_logging_prefs("performance", LoggingPrefsLogLevel::All)?;
    if width < DESK {
        let screen = json!({ "width": width, "height": height, "pixelRatio": 3.0, "touch": true, "mobile": true });
        chrome.add_experimental_option("mobileEmulation", json!({ "deviceMetrics": screen }))?;
    }
    Ok(chrome)
}

fn port_in(line: &str) -> Option<u16> {
    line.strip_suffix('.')?.rsplit_once("on port ")?.1.parse().ok()
}

fn named(variable: &str) -> Result<String> {
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
