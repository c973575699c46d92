//! As much of HTTP/1.1 (RFC 9112) as serving a folder to a browser takes.
//!
//! One thread a connection, kept open between requests.
//! Browsers open connections ahead of need; a server with a fixed number of threads can then be kept waiting by idle ones.
//! Left out: request bodies, chunked encoding, ranges, TLS.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::sync::Arc;
use std::time::Duration;

/// Longer heads than this are no browser's.
const HEAD_LIMIT: u64 = 32 * 1024;
/// An idle connection is closed after this; the browser opens another when it needs one.
const IDLE: Duration = Duration::from_secs(60);

/// What a browser asked for.
#[derive(Debug, PartialEq)]
pub(crate) struct Request {
    pub(crate) method: String,
    /// Path and query, as sent.
    pub(crate) target: String,
    pub(crate) takes_brotli: bool,
    keep_open: bool,
}

/// What it gets.
pub(crate) struct Response {
    pub(crate) status: &'static str,
    pub(crate) headers: Vec<(&'static str, String)>,
    pub(crate) body: Vec<u8>,
}

impl Response {
    /// A status with one sentence.
    pub(crate) fn sentence(status: &'static str, sentence: &str) -> Self {
        Self {
            status,
            headers: vec![("Content-Type", "text/plain; charset=utf-8".to_owned())],
            body: format!("{sentence}\n").into_bytes(),
        }
    }
}

/// Answers every connection until the process is ended.
pub(crate) fn listen<F>(listener: &TcpListener, answer: F)
where
    F: Fn(&Request) -> Response + Send + Sync + 'static,
{
    let answer = Arc::new(answer);
    for stream in listener.incoming().flatten() {
        let answer = Arc::clone(&answer);
        // A connection that breaks off concerns only the browser that opened it.
        std::thread::spawn(move || converse(&stream, &*answer).ok());
    }
}

fn converse(stream: &TcpStream, answer: &dyn Fn(&Request) -> Response) -> std::io::Result<()> {
    stream.set_read_timeout(Some(IDLE))?;
    stream.set_nodelay(true)?;
    let mut reader = BufReader::new(stream);
    loop {
        let Some(head) = read_head(&mut reader)? else {
            return Ok(());
        };
        let Some(request) = parse(&head) else {
            let refusal = Response::sentence("400 Bad Request", "not a request");
            return send(stream, &refusal, true, false);
        };
        let response = answer(&request);
        let with_body = request.method != "HEAD";
        send(stream, &response, with_body, request.keep_open)?;
        if !request.keep_open {
            return Ok(());
        }
    }
}

/// The lines up to the empty one; `None` when the browser has closed the connection.
fn read_head(reader: &mut impl BufRead) -> std::io::Result<Option<String>> {
    let mut head = String::new();
    let mut limited = reader.take(HEAD_LIMIT);
    loop {
        let start = head.len();
        if limited.read_line(&mut head)? == 0 {
            return Ok(None);
        }
        if head[start..].trim().is_empty() {
            return Ok(Some(head));
        }
    }
}

fn parse(head: &str) -> Option<Request> {
    let mut lines = head.lines();
    let mut words = lines.next()?.split(' ');
    let (method, target, version) = (words.next()?, words.next()?, words.next()?);
    let mut request = Request {
        method: method.to_owned(),
        target: target.to_owned(),
        takes_brotli: false,
        keep_open: version == "HTTP/1.1",
    };
    for line in lines.take_while(|line| !line.is_empty()) {
        let (field, value) = line.split_once(':')?;
        match field.to_ascii_lowercase().as_str() {
            "accept-encoding" => request.takes_brotli = value.split(',').any(is_brotli),
            "connection" if value.trim().eq_ignore_ascii_case("close") => {
                request.keep_open = false;
            }
            // A body that isn't read would be taken for the next request.
            "content-length" | "transfer-encoding" => request.keep_open = false,
            _ => {}
        }
    }
    Some(request)
}

fn is_brotli(coding: &str) -> bool {
    let (name, weight) = coding.split_once(';').unwrap_or((coding, ""));
    name.trim() == "br" && weight.trim() != "q=0"
}

fn send(
    mut stream: &TcpStream,
    response: &Response,
    with_body: bool,
    keep_open: bool,
) -> std::io::Result<()> {
    let mut head = format!("HTTP/1.1 {}\r\n", response.status);
    for (field, value) in &response.headers {
        head.push_str(&format!("{field}: {value}\r\n"));
    }
    let connection = if keep_open { "keep-alive" } else { "close" };
    let length = response.body.len();
    head.push_str(&format!(
        "Connection: {connection}\r\nContent-Length: {length}\r\n\r\n"
    ));
    let mut message = head.into_bytes();
    if with_body {
        message.extend_from_slice(&response.body);
    }
    stream.write_all(&message)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_browsers_request_is_understood() {
        let head = "GET /app.js?v=1 HTTP/1.1\r\nHost: x\r\nAccept-Encoding: gzip, br\r\n\r\n";
        let request = parse(head).expect("well formed");
        assert_eq!(request.target, "/app.js?v=1");
        assert!(request.takes_brotli && request.keep_open);
        let head = "HEAD / HTTP/1.1\r\nConnection: Close\r\nAccept-Encoding: br;q=0\r\n\r\n";
        let request = parse(head).expect("well formed");
        assert!(!request.takes_brotli && !request.keep_open);
    }

    #[test]
    fn nonsense_is_no_request() {
        assert_eq!(parse("hello\r\n\r\n"), None);
        assert_eq!(parse("GET / HTTP/1.1\r\nno colon\r\n\r\n"), None);
    }

    #[test]
    fn idle_connections_keep_nobody_waiting() -> std::io::Result<()> {
        let listener = TcpListener::bind("127.0.0.1:0")?;
        let address = listener.local_addr()?;
        std::thread::spawn(move || listen(&listener, |_| Response::sentence("200 OK", "here")));
        let idle: Result<Vec<_>, _> = (0..40).map(|_| TcpStream::connect(address)).collect();
        let mut stream = TcpStream::connect(address)?;
        stream.set_read_timeout(Some(Duration::from_secs(5)))?;
        stream.write_all(b"GET / HTTP/1.1\r\nConnection: close\r\n\r\n")?;
        let mut said = String::new();
        stream.read_to_string(&mut said)?;
        assert!(said.starts_with("HTTP/1.1 200 OK\r\n") && said.ends_with("\r\n\r\nhere\n"));
        drop(idle?);
        Ok(())
    }
}
