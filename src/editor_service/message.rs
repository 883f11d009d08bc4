//! Messages of JSON-RPC 2.0, as the Language Server Protocol uses them.

use serde_json::{Value, json};

/// What a message that came in is.
#[derive(Debug)]
pub(super) enum Incoming {
    /// It is to be answered.
    Request {
        /// What the answer is named by.
        id: Value,
        /// What is asked for.
        method: String,
        /// About what.
        params: Value,
    },
    /// It is to be heard.
    Notification {
        /// What happened.
        method: String,
        /// To what.
        params: Value,
    },
    /// It answers a request of our own.
    Answer {
        /// Which.
        id: Value,
        /// With what; `None` where the client could not.
        result: Option<Value>,
    },
}

/// Why a request is not answered as it asks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Refusal {
    code: i32,
    words: String,
}

impl Refusal {
    /// The codes are those of the protocol, sections "Base Protocol" and "Response Message".
    const fn new(code: i32, words: String) -> Refusal {
        Refusal { code, words }
    }

    /// What came is no JSON.
    pub(super) fn not_json(words: impl Into<String>) -> Refusal {
        Refusal::new(-32700, words.into())
    }

    /// What came is no request, or none that can be made now.
    pub(super) fn not_a_request(words: impl Into<String>) -> Refusal {
        Refusal::new(-32600, words.into())
    }

    /// Nothing is known of such requests.
    pub(super) fn unknown_method(method: &str) -> Refusal {
        Refusal::new(-32601, format!("sparestrip does not answer {method}"))
    }

    /// It does not ask as such a request does.
    pub(super) fn wrong_params(words: impl Into<String>) -> Refusal {
        Refusal::new(-32602, words.into())
    }

    /// The program failed at it.
    pub(super) fn failed() -> Refusal {
        Refusal::new(-32603, "sparestrip itself failed on this, please report that".to_string())
    }

    /// The service was not started yet.
    pub(super) fn not_initialized() -> Refusal {
        Refusal::new(-32002, "the first request must be initialize".to_string())
    }

    /// The client wants it no more.
    pub(super) fn canceled() -> Refusal {
        Refusal::new(-32800, "canceled".to_string())
    }

    /// It is asked for as it should be, and cannot be done, for this reason.
    pub(super) fn cannot(words: impl Into<String>) -> Refusal {
        Refusal::new(-32803, words.into())
    }
}

/// What a text says; where it is no message, the answer to that.
pub(super) fn read(text: &str) -> Result<Incoming, Value> {
    let message: Value = serde_json::from_str(text)
        .map_err(|error| answer(&Value::Null, Err(Refusal::not_json(format!("this is no JSON: {error}")))))?;
    let id = message.get("id").cloned();
    let refused = |words: &str| {
        let id = id.clone().filter(is_id).unwrap_or(Value::Null);
        answer(&id, Err(Refusal::not_a_request(words)))
    };
    if message.get("jsonrpc").and_then(Value::as_str) != Some("2.0") {
        return Err(refused("this is no message of JSON-RPC 2.0"));
    }
    let params = message.get("params").cloned().unwrap_or(Value::Null);
    match (message.get("method"), id.clone()) {
        (Some(Value::String(method)), None) => Ok(Incoming::Notification { method: method.clone(), params }),
        (Some(Value::String(method)), Some(id)) if is_id(&id) => {
            Ok(Incoming::Request { id, method: method.clone(), params })
        }
        (None, Some(id)) if message.get("result").is_some() || message.get("error").is_some() => {
            Ok(Incoming::Answer { id, result: message.get("result").cloned() })
        }
        _ => Err(refused("this is neither a request nor a notification")),
    }
}

fn is_id(id: &Value) -> bool {
    id.is_string() || id.is_i64() || id.is_u64()
}

/// The answer to a request.
pub(super) fn answer(id: &Value, result: Result<Value, Refusal>) -> Value {
    match result {
        Ok(result) => json!({ "jsonrpc": "2.0", "id": id, "result": result }),
        Err(Refusal { code, words }) => {
            json!({ "jsonrpc": "2.0", "id": id, "error": { "code": code, "message": words } })
        }
    }
}

/// A notification to the client.
pub(super) fn notification(method: &str, params: &Value) -> Value {
    json!({ "jsonrpc": "2.0", "method": method, "params": params })
}

/// A request to the client.
pub(super) fn request(id: &str, method: &str, params: &Value) -> Value {
    json!({ "jsonrpc": "2.0", "id": id, "method": method, "params": params })
}
