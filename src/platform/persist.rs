//! How safe the stored data are from the browser's tidying up.

use wasm_bindgen::JsValue;

use crate::events::navigator;
use crate::js;

/// Whether the browser promised to keep the data when space runs out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Persistence {
    /// It did.
    Granted,
    /// It didn't, or not yet.
    Refused,
    /// It makes no such promises.
    Unsupported,
}

/// Whether it has promised.
pub async fn persisted() -> Persistence {
    answer("persisted").await
}

/// Asks it to promise. Some browsers decide by themselves, some ask the baker.
pub async fn ask() -> Persistence {
    answer("persist").await
}

async fn answer(question: &str) -> Persistence {
    let Some(storage) = storage().filter(|storage| js::has(storage, question)) else {
        return Persistence::Unsupported;
    };
    let answer = js::call_and_wait(&storage, question, &[]).await;
    if answer.ok().and_then(|answer| answer.as_bool()) == Some(true) {
        Persistence::Granted
    } else {
        Persistence::Refused
    }
}

/// Bytes used and bytes allowed, roughly, where the browser says.
pub async fn estimate() -> Option<(u64, u64)> {
    let storage = storage()?;
    let answer = js::call_and_wait(&storage, "estimate", &[]).await.ok()?;
    let bytes = |name| Some(js::get(&answer, name)?.as_f64()? as u64);
    Some((bytes("usage")?, bytes("quota")?))
}

fn storage() -> Option<JsValue> {
    js::get(navigator().as_ref(), "storage")
}
