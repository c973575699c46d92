//! Reaching what `web-sys` has no stable name for, and what may be absent.

use js_sys::{Array, Function, JSON, Object, Promise, Reflect};
use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_futures::{JsFuture, spawn_local};

/// What the browser threw.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Thrown {
    /// Its name, which the standards fix: "NotAllowedError".
    pub(crate) name: String,
    /// Its message, which every browser words its own way.
    pub(crate) message: String,
}

impl From<JsValue> for Thrown {
    fn from(value: JsValue) -> Self {
        let text = |name| get(&value, name).and_then(|field| field.as_string());
        Self {
            name: text("name").unwrap_or_else(|| "Error".to_owned()),
            message: text("message").unwrap_or_else(|| text_of(&value)),
        }
    }
}

impl std::fmt::Display for Thrown {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {}", self.name, self.message)
    }
}

/// A property, unless it is absent.
pub(crate) fn get(target: &JsValue, name: &str) -> Option<JsValue> {
    let value = Reflect::get(target, &name.into()).ok()?;
    (!value.is_undefined() && !value.is_null()).then_some(value)
}

/// Whether there is such a property.
pub(crate) fn has(target: &JsValue, name: &str) -> bool {
    get(target, name).is_some()
}

/// Whether a property of that name exists, whatever it holds.
pub(crate) fn has_key(target: &JsValue, name: &str) -> bool {
    Reflect::has(target, &name.into()).unwrap_or(false)
}

/// Sets a property where that is allowed.
pub(crate) fn set(target: &JsValue, name: &str, value: impl Into<JsValue>) {
    // A refusal leaves the browser at its own choice, which is all that can be had.
    let _ = Reflect::set(target, &name.into(), &value.into());
}

/// Calls a method.
pub(crate) fn call(target: &JsValue, name: &str, arguments: &[JsValue]) -> Result<JsValue, Thrown> {
    let method = get(target, name).and_then(|method| method.dyn_into::<Function>().ok());
    let Some(method) = method else {
        return Err(Thrown {
            name: "NotSupportedError".to_owned(),
            message: format!("this browser has no {name}"),
        });
    };
    let arguments: Array = arguments.iter().collect();
    Reflect::apply(&method, target, &arguments).map_err(Thrown::from)
}

/// Calls a method and waits for what it promises.
pub(crate) async fn call_and_wait(
    target: &JsValue,
    name: &str,
    arguments: &[JsValue],
) -> Result<JsValue, Thrown> {
    wait(call(target, name, arguments)?).await
}

/// Waits for a promise; anything else is there at once.
pub(crate) async fn wait(value: JsValue) -> Result<JsValue, Thrown> {
    let promise = Promise::resolve(&value);
    JsFuture::from(promise).await.map_err(Thrown::from)
}

/// Lets a promise go whose answer changes nothing, so that the browser doesn't report a refusal as an error.
pub(crate) fn ignore(promised: Result<JsValue, Thrown>) {
    if let Ok(promise) = promised {
        spawn_local(async move { drop(wait(promise).await) });
    }
}

/// A plain object.
pub(crate) fn object(fields: &[(&str, JsValue)]) -> JsValue {
    let object = Object::new();
    for (name, value) in fields {
        set(&object, name, value.clone());
    }
    object.into()
}

/// A string as it is; of anything else its JSON, or nothing.
pub(crate) fn text_of(value: &JsValue) -> String {
    value.as_string().unwrap_or_else(|| {
        let json = JSON::stringify(value);
        json.ok()
            .and_then(|text| JsValue::from(text).as_string())
            .unwrap_or_default()
    })
}
