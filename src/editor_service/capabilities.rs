//! What the service can do, as it says when it is started.

use gen_lsp_types::{
    CodeActionKind, CodeActionOptions, CompletionOptions, InitializeResult, PositionEncodingKind, RenameOptions,
    ServerCapabilities, ServerInfo, TextDocumentSyncKind, TextDocumentSyncOptions,
};

use super::client::Client;
use crate::manuscript::PositionEncoding;

/// The kind of the action that makes every correction.
pub(super) const FIX_ALL: CodeActionKind = CodeActionKind::SourceFixAll;

/// The answer to `initialize`.
pub(super) fn initialize_result(client: Client) -> InitializeResult {
    let encoding = match client.encoding {
        PositionEncoding::Utf8 => PositionEncodingKind::UTF8,
        PositionEncoding::Utf16 => PositionEncodingKind::UTF16,
    };
    let sync = TextDocumentSyncOptions {
        open_close: Some(true),
        change: Some(TextDocumentSyncKind::Incremental),
        ..TextDocumentSyncOptions::default()
    };
    let actions = CodeActionOptions {
        code_action_kinds: Some(vec![CodeActionKind::QuickFix, FIX_ALL]),
        resolve_provider: Some(true),
        ..CodeActionOptions::default()
    };
    let completion = CompletionOptions {
        trigger_characters: Some([" ", "[", "{", ","].map(String::from).to_vec()),
        ..CompletionOptions::default()
    };
    let capabilities = ServerCapabilities {
        position_encoding: Some(encoding),
        text_document_sync: Some(sync.into()),
        hover_provider: Some(true.into()),
        completion_provider: Some(completion),
        definition_provider: Some(true.into()),
        references_provider: Some(true.into()),
        document_symbol_provider: Some(true.into()),
        folding_range_provider: Some(true.into()),
        code_action_provider: Some(actions.into()),
        rename_provider: Some(RenameOptions { prepare_provider: Some(true), ..RenameOptions::default() }.into()),
        inlay_hint_provider: Some(true.into()),
        ..ServerCapabilities::default()
    };
    let server_info =
        ServerInfo { name: env!("CARGO_PKG_NAME").to_string(), version: Some(env!("CARGO_PKG_VERSION").to_string()) };
    InitializeResult { capabilities, server_info: Some(server_info) }
}
