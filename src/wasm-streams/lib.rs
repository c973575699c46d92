//! Takes the place of the crate `wasm-streams`, which comes with Leptos for calls to a server.
//!
//! Oventide calls no server, so nothing of it ever runs.
//! But that crate exports its functions to JavaScript, and what is exported can't be optimised away: it would be
//! twelve kilobytes for every phone to load.
//! `Cargo.toml` puts this in its place, with just what Leptos' server functions need to compile.

use std::pin::Pin;
use std::task::{Context, Poll};

use futures_core::Stream;
use wasm_bindgen::JsValue;

/// A body that would come from, or go to, a server.
#[derive(Debug)]
pub struct ReadableStream(web_sys::ReadableStream);

impl ReadableStream {
    /// The body of an answer.
    #[must_use]
    pub fn from_raw(raw: web_sys::ReadableStream) -> Self {
        Self(raw)
    }

    /// The body of a question: always empty.
    ///
    /// # Panics
    /// Where the browser has no streams.
    pub fn from_stream(_: impl Stream<Item = Result<JsValue, JsValue>> + 'static) -> Self {
        Self(web_sys::ReadableStream::new().expect("nothing of this ever runs"))
    }

    /// The browser's own stream.
    #[must_use]
    pub fn into_raw(self) -> web_sys::ReadableStream {
        self.0
    }

    /// What the stream holds: always nothing.
    pub fn into_stream(self) -> impl Stream<Item = Result<JsValue, JsValue>> {
        Nothing
    }
}

struct Nothing;

impl Stream for Nothing {
    type Item = Result<JsValue, JsValue>;

    fn poll_next(self: Pin<&mut Self>, _: &mut Context<'_>) -> Poll<Option<Self::Item>> {
        Poll::Ready(None)
    }
}
