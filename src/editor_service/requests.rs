//! What the editor may ask about a text, and who answers.

use gen_lsp_types::{
    CodeAction, CodeActionParams, CompletionParams, DefinitionParams, DocumentSymbolParams, FoldingRangeParams,
    HoverParams, InlayHintParams, PrepareRenameParams, ReferenceParams, RenameParams, TextDocumentPositionParams, Uri,
};
use serde_json::Value;

use super::document::{Asked, Document};
use super::message::Refusal;
use super::{Service, actions, as_json, completion, folding, hints, hover, navigation, parsed, rename, symbols};

impl Service {
    /// Answers a request about a text. About one that is not open, or is nothing that is checked, there is nothing to say.
    pub(super) fn answer_about_text(&mut self, method: &str, params: Value) -> Result<Value, Refusal> {
        match method {
            "textDocument/hover" => {
                let params: HoverParams = parsed(params)?;
                self.about_place(&params.text_document_position_params, |asked| Ok(hover::hover(self, asked)))
            }
            "textDocument/completion" => {
                let params: CompletionParams = parsed(params)?;
                self.about_place(&params.text_document_position_params, |asked| Ok(completion::items(self, asked)))
            }
            "textDocument/definition" => {
                let params: DefinitionParams = parsed(params)?;
                self.about_place(&params.text_document_position_params, |asked| {
                    Ok(navigation::definition(asked, self.client))
                })
            }
            "textDocument/references" => {
                let params: ReferenceParams = parsed(params)?;
                let with_own = params.context.include_declaration;
                self.about_place(&params.text_document_position_params, |asked| {
                    Ok(navigation::references(asked, with_own, self.client))
                })
            }
            "textDocument/prepareRename" => {
                let params: PrepareRenameParams = parsed(params)?;
                self.about_place(&params.text_document_position_params, |asked| Ok(rename::prepare(asked, self.client)))
            }
            "textDocument/rename" => {
                let params: RenameParams = parsed(params)?;
                self.about_place(&params.text_document_position_params, |asked| {
                    rename::rename(self, asked, &params.new_name)
                })
            }
            "textDocument/codeAction" => {
                let params: CodeActionParams = parsed(params)?;
                as_json(actions::actions(self, &params))
            }
            "codeAction/resolve" => {
                let action: CodeAction = parsed(params)?;
                as_json(actions::resolve(self, action))
            }
            _ => self.answer_about_whole(method, params),
        }
    }

    /// Answers a request about a whole text.
    fn answer_about_whole(&self, method: &str, params: Value) -> Result<Value, Refusal> {
        match method {
            "textDocument/documentSymbol" => {
                let params: DocumentSymbolParams = parsed(params)?;
                self.about(&params.text_document.uri, |document| symbols::symbols(document, self.client))
            }
            "textDocument/foldingRange" => {
                let params: FoldingRangeParams = parsed(params)?;
                self.about(&params.text_document.uri, folding::ranges)
            }
            "textDocument/inlayHint" => {
                let params: InlayHintParams = parsed(params)?;
                self.about(&params.text_document.uri, |document| hints::hints(self, document, params.range))
            }
            _ => Err(Refusal::unknown_method(method)),
        }
    }

    /// The open text of a URI.
    pub(super) fn document(&self, uri: &Uri) -> Option<&Document> {
        self.documents.get(&uri.0)
    }

    fn about<T: serde::Serialize>(&self, uri: &Uri, answer: impl FnOnce(&Document) -> T) -> Result<Value, Refusal> {
        self.document(uri).map_or(Ok(Value::Null), |document| as_json(answer(document)))
    }

    fn about_place<T: serde::Serialize>(
        &self,
        place: &TextDocumentPositionParams,
        answer: impl FnOnce(Asked<'_>) -> Result<T, Refusal>,
    ) -> Result<Value, Refusal> {
        let Some(document) = self.document(&place.text_document.uri) else { return Ok(Value::Null) };
        let byte = document.byte(place.position, self.client.encoding);
        answer(Asked { document, byte }).and_then(as_json)
    }
}
