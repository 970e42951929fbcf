//! Serves a built folder as a good static host would.

use crate::headers::{ALWAYS, cache_control};
use anyhow::{Context, Result};
use axum::{
    Router,
    body::Body,
    http::{HeaderValue, Request, Response, header},
    middleware::{self, Next},
};
use std::{
    net::{Ipv4Addr, SocketAddr, TcpListener},
    path::Path,
    thread::{self, JoinHandle},
};
use tokio::sync::oneshot;
use tower_http::services::ServeDir;

/// A server on a thread of its own, until [`Server::stop`] or until it is dropped.
#[derive(Debug)]
pub struct Server {
    pub address: SocketAddr,
    stop: Option<oneshot::Sender<()>>,
    thread: Option<JoinHandle<()>>,
}

impl Server {
    /// Serves `folder` to this machine only; port 0 takes any free one.
    pub fn start(folder: &Path, port: u16) -> Result<Self> {
        Self::start_at(folder, SocketAddr::from((Ipv4Addr::LOCALHOST, port)))
    }

    /// Serves `folder` at `address`.
    pub fn start_at(folder: &Path, address: SocketAddr) -> Result<Self> {
        anyhow::ensure!(folder.join("index.html").is_file(), "{} holds no built app", folder.display());
        let listener = TcpListener::bind(address).with_context(|| format!("{address} cannot be used"))?;
        listener.set_nonblocking(true)?;
        let address = listener.local_addr()?;
        let files = ServeDir::new(folder).precompressed_br().precompressed_gzip();
        let app = Router::new().fallback_service(files).layer(middleware::from_fn(with_headers));
        let runtime = tokio::runtime::Builder::new_multi_thread().worker_threads(2).enable_all().build()?;
        let (stop, stopped) = oneshot::channel();
        let thread = thread::spawn(move || {
            runtime.block_on(async {
                let Ok(listener) = tokio::net::TcpListener::from_std(listener) else {
                    return;
                };
                tokio::select! {
                    _ = axum::serve(listener, app) => {}
                    _ = stopped => {}
                }
            });
            // Open connections end with the runtime: a stopped server answers nobody.
            runtime.shutdown_background();
        });
        Ok(Self { address, stop: Some(stop), thread: Some(thread) })
    }

    /// Where a browser on this machine finds it. By name, as browsers trust `localhost` with service workers.
    #[must_use]
    pub fn url(&self) -> String {
        format!("http://localhost:{}/", self.address.port())
    }

    /// Ends it; its port is free and its connections are closed when this returns.
    pub fn stop(mut self) {
        self.end();
    }

    /// Waits as long as it serves.
    pub fn wait(mut self) {
        if let Some(thread) = self.thread.take() {
            thread.join().ok();
        }
    }

    fn end(&mut self) {
        if let Some(stop) = self.stop.take() {
            stop.send(()).ok();
        }
        if let Some(thread) = self.thread.take() {
            thread.join().ok();
        }
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.end();
    }
}

async fn with_headers(mut request: Request<Body>, next: Next) -> Response<Body> {
    let name = request.uri().path().trim_start_matches('/').to_owned();
    let kept = cache_control(&name);
    if kept == "no-cache" {
        // Times of files are in whole seconds: a build within the second of another would be taken for it.
        request.headers_mut().remove(header::IF_MODIFIED_SINCE);
    }
    let mut response = next.run(request).await;
    let found = response.status().is_success() || response.status().is_redirection();
    let headers = response.headers_mut();
    for (name, value) in ALWAYS {
        headers.insert(name, HeaderValue::from_static(value));
    }
    headers.insert(header::CACHE_CONTROL, HeaderValue::from_static(if found { kept } else { "no-store" }));
    if kept == "no-cache" {
        headers.remove(header::LAST_MODIFIED);
    }
    response
}
