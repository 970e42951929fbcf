//! `cargo app` and `cargo verify`.

use anyhow::{Context, Result, ensure};
use lexopt::{
    Arg::{Long, Short, Value},
    Parser, ValueExt,
};
use std::{net::Ipv4Addr, net::SocketAddr, process::ExitCode};
use trialfit_bundle::{
    build::{Purpose, build},
    check::check,
    server::Server,
    steps::Consent,
    verify::{Stage, verify},
    workspace::Workspace,
};

const HELP: &str = "\
cargo app [build | serve]   build the app and serve it; `build` only builds, `serve` only serves
    --port N                serve at this port, or not at all (else 8080, or the next free one)
    --open-to-network       serve to other machines too
    --desk                  build in seconds for work at the desk: large, not compressed, not to be published
    --yes                   agree to installing what is missing
cargo app check ADDRESS     look at a published app: headers, types, compression, readiness for use offline

cargo verify                every check
    --only STAGE            this one alone, or with others named so: format, clippy, tests, clippy-wasm, build, browsers, lighthouse; or pictures, which makes
                            those of the README and those that screens are compared with
    --yes                   agree to installing what is missing
";

fn main() -> ExitCode {
    match run() {
        Ok(code) => code,
        Err(error) => {
            eprintln!("{error:#}");
            ExitCode::FAILURE
        }
    }
}

fn run() -> Result<ExitCode> {
    let mut words = Parser::from_env();
    match words.next()? {
        Some(Value(command)) if command == "app" => app(words),
        Some(Value(command)) if command == "verify" => verify_all(words),
        asked => {
            print!("{HELP}");
            Ok(if matches!(asked, Some(Long("help") | Short('h'))) { ExitCode::SUCCESS } else { ExitCode::from(2) })
        }
    }
}

fn app(mut words: Parser) -> Result<ExitCode> {
    let (mut builds, mut serves) = (true, true);
    let (mut port, mut open) = (None, false);
    let mut purpose = Purpose::Publish;
    let mut consent = Consent::from_environment();
    while let Some(word) = words.next()? {
        match word {
            Value(command) if command == "check" => return check_address(&words.value()?.string()?),
            Value(command) if command == "build" => serves = false,
            Value(command) if command == "serve" => builds = false,
            Long("port") => port = Some(words.value()?.parse::<u16>()?),
            Long("open-to-network") => open = true,
            Long("desk") => purpose = Purpose::Desk,
            Long("yes") => consent = Consent::Given,
            Long("help") | Short('h') => {
                print!("{HELP}");
                return Ok(ExitCode::SUCCESS);
            }
            other => return Err(other.unexpected().into()),
        }
    }
    let workspace = Workspace::find()?;
    if builds {
        let first_visit = build(&workspace, purpose, consent)?;
        if purpose == Purpose::Publish {
            println!("{first_visit}");
        }
    }
    if serves {
        serve(&workspace, port, open)?;
    }
    Ok(ExitCode::SUCCESS)
}

fn check_address(address: &str) -> Result<ExitCode> {
    let found = check(address)?;
    println!("{address}\n{found}");
    Ok(if found.wrong.is_empty() { ExitCode::SUCCESS } else { ExitCode::FAILURE })
}

fn verify_all(mut words: Parser) -> Result<ExitCode> {
    let workspace = Workspace::find()?;
    let mut only = Vec::new();
    let mut consent = Consent::from_environment();
    while let Some(word) = words.next()? {
        match word {
            Long("only") => only.push(words.value()?.parse()?),
            Long("yes") => consent = Consent::Given,
            Long("help") | Short('h') => {
                print!("{HELP}");
                return Ok(ExitCode::SUCCESS);
            }
            other => return Err(other.unexpected().into()),
        }
    }
    let stages = if only.is_empty() { Stage::ALL.to_vec() } else { only };
    let passed = verify(&workspace, &stages, consent);
    Ok(if passed { ExitCode::SUCCESS } else { ExitCode::FAILURE })
}

fn serve(workspace: &Workspace, port: Option<u16>, open: bool) -> Result<()> {
    let dist = workspace.dist();
    ensure!(dist.join("index.html").is_file(), "there is nothing to serve yet: run `cargo app build`");
    let host = if open { Ipv4Addr::UNSPECIFIED } else { Ipv4Addr::LOCALHOST };
    let start = |port| Server::start_at(&dist, SocketAddr::from((host, port)));
    let server = match port {
        Some(port) => start(port)?,
        None => (8080..8100).find_map(|port| start(port).ok()).context("no port from 8080 to 8099 is free: name one with --port")?,
    };
    println!("Open {} (Ctrl-C ends it)", server.url());
    if open {
        println!(
            "Other machines reach it at this machine's own address, port {}. Browsers keep a page for use without a network only \
             when it comes by https or from localhost: elsewhere it works while this runs.",
            server.address.port()
        );
    }
    server.wait();
    Ok(())
}
