//! Files out and in.
//!
//! Apps on an iPhone's home screen have no downloads, so there the share sheet
//! takes the file; everywhere else the browser downloads it.

use gloo_timers::callback::Timeout;
use js_sys::{Array, Uint8Array};
use wasm_bindgen::{JsCast as _, JsValue};
use web_sys::{
    Blob, BlobPropertyBag, File, FilePropertyBag, HtmlAnchorElement, HtmlInputElement, Url,
};

use crate::events::{document, listen, navigator};
use crate::later::later;
use crate::{device, js, page};

/// What became of a file that was to be saved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SaveOutcome {
    /// The share sheet took it.
    Shared,
    /// The browser downloads it.
    Downloaded,
    /// The baker closed the share sheet.
    Cancelled,
    /// Neither was possible; the browser's words.
    Failed(String),
}

/// Why no text came out of a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum FileError {
    /// It is larger than what was asked for.
    TooLarge,
    /// It isn't text in UTF-8.
    NotText,
    /// It could not be read; the browser's words.
    Failed(String),
}

/// How long a download may take to begin before its data are let go.
const LET_GO_AFTER_MS: u32 = 60_000;

/// Saves a text as a file. To be called from a tap.
pub async fn save(name: &str, mime: &str, text: &str) -> SaveOutcome {
    let downloads = js::has_key(&anchor(), "download");
    let result = if !downloads || (device::is_ios() && page::is_standalone()) {
        share(name, mime, text).await
    } else {
        download(name, mime, text)
    };
    result.unwrap_or_else(|thrown| match thrown.name.as_str() {
        "AbortError" => SaveOutcome::Cancelled,
        _ => SaveOutcome::Failed(thrown.message),
    })
}

fn anchor() -> JsValue {
    document()
        .create_element("a")
        .map_or(JsValue::UNDEFINED, JsValue::from)
}

async fn share(name: &str, mime: &str, text: &str) -> Result<SaveOutcome, js::Thrown> {
    let options = FilePropertyBag::new();
    options.set_type(mime);
    let file = File::new_with_str_sequence_and_options(&Array::of1(&text.into()), name, &options)?;
    let files = js::object(&[("files", Array::of1(&file).into())]);
    // Not every kind of file may be shared, and asking first is quieter than being refused.
    let files = [files];
    let can = js::call(navigator().as_ref(), "canShare", &files);
    if can.is_ok_and(|can| can == JsValue::FALSE) {
        return Err(js::Thrown {
            name: "NotSupportedError".to_owned(),
            message: format!("{mime} can't be shared"),
        });
    }
    js::call_and_wait(navigator().as_ref(), "share", &files).await?;
    Ok(SaveOutcome::Shared)
}

fn download(name: &str, mime: &str, text: &str) -> Result<SaveOutcome, js::Thrown> {
    let options = BlobPropertyBag::new();
    options.set_type(mime);
    let blob = Blob::new_with_str_sequence_and_options(&Array::of1(&text.into()), &options)?;
    let address = Url::create_object_url_with_blob(&blob)?;
    let anchor: HtmlAnchorElement = anchor().unchecked_into();
    anchor.set_href(&address);
    anchor.set_download(name);
    anchor.click();
    let let_go = Timeout::new(LET_GO_AFTER_MS, move || {
        let _ = Url::revoke_object_url(&address);
    });
    let_go.forget();
    Ok(SaveOutcome::Downloaded)
}

/// Lets the baker pick a file and reads it. `None` when nothing was picked. To be called from a tap.
///
/// Browsers from before 2023 don't say when the picker was closed; there the answer then never comes.
///
/// # Errors
/// [`FileError`].
pub async fn pick_text(
    accept: &str,
    max_bytes: usize,
) -> Result<Option<(String, String)>, FileError> {
    let input = picker(accept)?;
    let (giver, answered) = later();
    let changed = giver.clone();
    let _change = listen(&input, "change", move |_| {
        let _ = changed.give(());
    });
    let _cancel = listen(&input, "cancel", move |_| {
        let _ = giver.give(());
    });
    input.click();
    answered.await;
    let picked = input.files().and_then(|files| files.get(0));
    input.remove();
    match picked {
        Some(file) => read(&file, max_bytes).await.map(Some),
        None => Ok(None),
    }
}

fn picker(accept: &str) -> Result<HtmlInputElement, FileError> {
    let document = document();
    let element = document.create_element("input").map_err(failed)?;
    let input: HtmlInputElement = element.unchecked_into();
    input.set_type("file");
    input.set_accept(accept);
    input.set_hidden(true);
    // Some browsers only open a picker that is part of the page.
    if let Some(body) = document.body() {
        body.append_child(&input).map_err(failed)?;
    }
    Ok(input)
}

async fn read(file: &File, max_bytes: usize) -> Result<(String, String), FileError> {
    if file.size() > max_bytes as f64 {
        return Err(FileError::TooLarge);
    }
    let bytes = js::call_and_wait(file.as_ref(), "arrayBuffer", &[]).await;
    let bytes = bytes.map_err(|thrown| FileError::Failed(thrown.message))?;
    let text = text(Uint8Array::new(&bytes).to_vec()).ok_or(FileError::NotText)?;
    Ok((file.name(), text))
}

/// Text in UTF-8, without the mark that some editors put in front.
fn text(bytes: Vec<u8>) -> Option<String> {
    let text = String::from_utf8(bytes).ok()?;
    if text.contains('\0') {
        return None;
    }
    Some(
        text.strip_prefix('\u{feff}')
            .map_or(text.clone(), str::to_owned),
    )
}

fn failed(thrown: JsValue) -> FileError {
    FileError::Failed(js::Thrown::from(thrown).message)
}

#[cfg(test)]
mod tests {
    use super::text;

    #[test]
    fn only_text_in_utf_8_is_text() {
        assert_eq!(text(b"caf\xc3\xa9".to_vec()).as_deref(), Some("café"));
        assert_eq!(text(b"\xef\xbb\xbf{}".to_vec()).as_deref(), Some("{}"));
        assert_eq!(text(b"caf\xe9".to_vec()), None);
        assert_eq!(text(b"PK\x03\x04\0\0".to_vec()), None);
    }
}
