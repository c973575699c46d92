//! A small static host for `dist`, doing what a good host does for this app.
//!
//! It compresses, never lets the entry points go stale, lets hashed files be kept for ever,
//! and sends the page's policy as a header, which alone can forbid framing.
//! Left out: HTTPS, ranges, directory listings.

use crate::http::{self, Request, Response};
use crate::{paths, precache, size};
use std::collections::HashMap;
use std::net::{IpAddr, SocketAddr, TcpListener, UdpSocket};
use std::path::{Component, Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};
use std::time::SystemTime;

/// Good enough for a local network, and a hundred times faster than the best.
const QUALITY: u32 = 5;

/// Serves until the process is ended; `false` when it can't start.
pub(crate) fn forever(address: IpAddr, port: u16) -> bool {
    let dist = paths::dist();
    let page = std::fs::read_to_string(dist.join("index.html")).unwrap_or_default();
    if precache::policy_of(&page).is_none() {
        println!("  FAILED  serve: dist holds no built app");
        println!("          what to do: run `cargo xtask serve` without --no-build");
        return false;
    }
    let listener = match TcpListener::bind((address, port)) {
        Ok(listener) => listener,
        Err(cause) => {
            println!("  FAILED  serve: {address}:{port} can't be listened on: {cause}");
            println!("          what to do: end what uses it, or choose another with --port");
            return false;
        }
    };
    // Port 0 lets the system choose, so the listener knows better than we do.
    let chosen = listener.local_addr();
    announce(chosen.unwrap_or(SocketAddr::new(address, port)));
    let host = Host {
        dist,
        packed: Mutex::default(),
    };
    http::listen(&listener, move |request| host.answer(request));
    true
}

fn announce(bound: SocketAddr) {
    let port = bound.port();
    println!();
    if bound.ip().is_unspecified() {
        println!("Oventide is at http://localhost:{port}/");
        match own_address() {
            Some(own) => println!("From a phone on the same network: http://{own}:{port}/"),
            None => println!("This machine has no address on a network that a phone could use."),
        }
        https_caveat();
    } else {
        println!("Oventide is at http://{bound}/");
        if bound.ip().is_loopback() {
            println!("To reach it from a phone, add --address 0.0.0.0.");
        } else {
            https_caveat();
        }
    }
    println!("End it with Ctrl-C.");
}

fn https_caveat() {
    println!(
        "Over plain http a phone has no service worker, notifications, wake lock or microphone:\n\
         browsers allow them only over HTTPS or on localhost. So offline use and keeping the\n\
         screen on can't be tried this way; put dist on a host with HTTPS for that."
    );
}

/// The address others on the network see; asking for a route sends nothing.
fn own_address() -> Option<IpAddr> {
    let socket = UdpSocket::bind("0.0.0.0:0").ok()?;
    // 192.0.2.1 is set aside for documentation (RFC 5737), so it belongs to nobody.
    socket.connect("192.0.2.1:9").ok()?;
    let own = socket.local_addr().ok()?.ip();
    (!own.is_loopback() && !own.is_unspecified()).then_some(own)
}

/// A file as it was when it was compressed.
type Packed = HashMap<(PathBuf, Option<SystemTime>), Arc<Vec<u8>>>;

struct Host {
    dist: PathBuf,
    packed: Mutex<Packed>,
}

impl Host {
    fn answer(&self, request: &Request) -> Response {
        if !matches!(request.method.as_str(), "GET" | "HEAD") {
            return Response::sentence("405 Method Not Allowed", "only GET");
        }
        let found = relative_path(&request.target).map(|name| self.dist.join(name));
        let content = found.and_then(|path| Some((std::fs::read(&path).ok()?, path)));
        let Some((content, path)) = content else {
            return Response::sentence("404 Not Found", "not here");
        };
        let name = path.to_string_lossy();
        let mut headers = vec![
            ("Content-Type", media_type(&name).to_owned()),
            ("Cache-Control", lifetime(&name).to_owned()),
            ("Vary", "Accept-Encoding".to_owned()),
            ("X-Content-Type-Options", "nosniff".to_owned()),
            ("Referrer-Policy", "no-referrer".to_owned()),
            ("Content-Security-Policy", self.policy()),
        ];
        let body = if size::is_compressible(&name) && request.takes_brotli {
            headers.push(("Content-Encoding", "br".to_owned()));
            self.pack(&path, &content).to_vec()
        } else {
            content
        };
        Response {
            status: "200 OK",
            headers,
            body,
        }
    }

    /// The page's policy, and what only a header can say.
    fn policy(&self) -> String {
        let page = std::fs::read_to_string(self.dist.join("index.html")).unwrap_or_default();
        let policy = precache::policy_of(&page).unwrap_or("default-src 'none'");
        format!("{policy}; frame-ancestors 'none'")
    }

    fn pack(&self, path: &Path, content: &[u8]) -> Arc<Vec<u8>> {
        let modified = path.metadata().and_then(|about| about.modified()).ok();
        let key = (path.to_path_buf(), modified);
        let look = || self.packed.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(packed) = look().get(&key) {
            return Arc::clone(packed);
        }
        let packed = Arc::new(size::compress(content, QUALITY));
        look().insert(key, Arc::clone(&packed));
        packed
    }
}

/// The file a URL asks for, relative to `dist`; never one outside it.
fn relative_path(url: &str) -> Option<PathBuf> {
    let path = url.split(['?', '#']).next()?.strip_prefix('/')?;
    let path = match path {
        "" => "index.html",
        other => other,
    };
    let path = Path::new(path);
    let inside = path
        .components()
        .all(|part| matches!(part, Component::Normal(_)));
    inside.then(|| path.to_path_buf())
}

fn media_type(name: &str) -> &'static str {
    let ending = name.rsplit_once('.').map_or("", |(_, ending)| ending);
    match ending {
        "html" => "text/html; charset=utf-8",
        "js" => "text/javascript; charset=utf-8",
        "css" => "text/css; charset=utf-8",
        "wasm" => "application/wasm",
        "webmanifest" => "application/manifest+json",
        "json" => "application/json",
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "txt" => "text/plain; charset=utf-8",
        _ => "application/octet-stream",
    }
}

/// How long a browser may keep a file without asking again.
fn lifetime(name: &str) -> &'static str {
    if is_hashed(name) {
        "public, max-age=31536000, immutable"
    } else {
        "no-cache"
    }
}

/// Whether Trunk put a hash of the content into the name.
fn is_hashed(name: &str) -> bool {
    name.split(['-', '.', '_'])
        .any(|part| part.len() >= 12 && part.bytes().all(|byte| byte.is_ascii_hexdigit()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_outside_the_folder_is_served() {
        for url in ["/../Cargo.toml", "/a/../../b", "//etc/passwd", "relative"] {
            assert_eq!(relative_path(url), None, "{url}");
        }
        assert_eq!(relative_path("/?from=home"), Some("index.html".into()));
        assert_eq!(relative_path("/icons/a.png"), Some("icons/a.png".into()));
    }

    #[test]
    fn only_hashed_names_are_kept_for_ever() {
        assert!(is_hashed("dist/app-1f0c2a9be37d4c55_bg.wasm"));
        assert!(is_hashed("tokens-9be37d4c551f0c2a.css"));
        for entry in [
            "index.html",
            "sw.js",
            "manifest.webmanifest",
            "icons/icon-512.png",
        ] {
            assert_eq!(lifetime(entry), "no-cache", "{entry}");
        }
    }

    #[test]
    fn wasm_can_be_compiled_while_it_arrives() {
        assert_eq!(media_type("a/app_bg.wasm"), "application/wasm");
        assert_eq!(media_type("no-ending"), "application/octet-stream");
    }
}
