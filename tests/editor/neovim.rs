//! Neovim, with the recipe that the program prints: it opens an example, a fault is typed, the finding stands at its column,
//! the correction is chosen, and the text is right.

use std::path::Path;
use std::process::{Command, Stdio};

use serde_json::{Value, json};

use super::support::{finish, write};
use super::{example, text_of};

/// What is typed and looked at. `wait` runs Neovim's loop until something holds.
const SCRIPT: &str = r#"
local function wait(what, holds)
  assert(vim.wait(60000, holds, 20), what)
end
local function found()
  local told = {}
  for _, each in ipairs(vim.diagnostic.get(0)) do
    table.insert(told, { each.lnum, each.col, each.end_col, each.severity, each.code, each.message, each.source })
  end
  return told
end
local function client()
  local clients = vim.lsp.get_clients and vim.lsp.get_clients({ bufnr = 0 }) or vim.lsp.buf_get_clients(0)
  return select(2, next(clients))
end
local out = {}
local function run()
  vim.cmd("edit " .. FILE)
  wait("the service starts", function() return client() and client().initialized end)
  out.encoding = client().offset_encoding
  vim.fn.cursor(LINE, 1)
  vim.fn.search(OLD, "c", LINE)
  vim.api.nvim_feedkeys("c" .. #OLD .. "l" .. NEW .. "\27", "xt", false)
  wait("a finding is told", function() return #vim.diagnostic.get(0) == 1 end)
  out.found = found()
  out.typed = vim.api.nvim_get_current_line()
  vim.ui.select = function(items, _, chosen)
    out.titles = vim.tbl_map(function(item) return (item.action or item[2]).title end, items)
    chosen(items[1])
  end
  vim.lsp.buf.code_action()
  wait("it is corrected", function() return vim.api.nvim_get_current_line() ~= out.typed end)
  wait("the finding is gone", function() return #vim.diagnostic.get(0) == 0 end)
  out.text = table.concat(vim.api.nvim_buf_get_lines(0, 0, -1, false), "\n") .. "\n"
end
local ok, why = pcall(run)
out.why = why
vim.fn.writefile({ vim.json.encode(out) }, OUT)
vim.cmd("qall!")
"#;

/// Whether a command is there. Where everything must be checked, it has to be.
fn is_there(command: &str) -> bool {
    let is_there = Command::new(command).arg("--version").stdout(Stdio::null()).stderr(Stdio::null()).status().is_ok();
    assert!(is_there || std::env::var_os("CI").is_none(), "{command} is missing");
    if !is_there {
        eprintln!("{command} is not installed, and nothing of it was checked");
    }
    is_there
}

/// What Neovim saw in a file, with a text typed over another on a line.
fn seen(file: &Path, line: usize, old: &str, new: &str) -> Value {
    let folder = tempfile::tempdir().unwrap();
    let (recipe, script, out) =
        (folder.path().join("init.lua"), folder.path().join("script.lua"), folder.path().join("out.json"));
    write(&recipe, sparestrip::editor_service::setup::recipe("neovim").unwrap());
    let values = json!({ "FILE": file, "OUT": out, "LINE": line, "OLD": old, "NEW": new });
    let named = values.as_object().unwrap().iter().map(|(name, value)| format!("local {name} = {value}\n"));
    write(&script, named.collect::<String>() + SCRIPT);
    let program = Path::new(env!("CARGO_BIN_EXE_sparestrip")).parent().unwrap();
    let path = std::env::join_paths(
        std::iter::once(program.to_path_buf()).chain(std::env::split_paths(&std::env::var_os("PATH").unwrap())),
    );
    let mut neovim = Command::new("nvim");
    neovim
        .args(["--headless", "-n", "-i", "NONE", "-u"])
        .arg(&recipe)
        .arg("-c")
        .arg(format!("luafile {}", script.display()));
    for name in ["XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME"] {
        neovim.env(name, folder.path());
    }
    neovim.env("PATH", path.unwrap()).stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let ran = finish(&mut neovim, b"");
    let read = std::fs::read(&out).unwrap_or_else(|error| panic!("{error}: {ran:?}"));
    let seen: Value = serde_json::from_slice(&read).unwrap();
    assert_eq!(seen.get("why"), None, "{seen} {ran:?}");
    seen
}

#[test]
fn neovim_shows_a_fault_at_its_column_and_corrects_it() {
    if !is_there("nvim") {
        return;
    }
    let folder = tempfile::tempdir().unwrap();
    // With characters of four bytes before the number: Neovim counts columns in bytes, the service in what they agreed on.
    let text = text_of(&example("gull-mat")).replace("mat:", "\u{1f9f5} mat:");
    let found = (1..).zip(text.lines()).find(|(_, line)| line.contains("strips:"));
    let (number, line) = found.expect("a line with strips");
    let strips: String = line.split("strips: ").nth(1).unwrap().chars().take_while(char::is_ascii_digit).collect();
    let file = folder.path().join("gull-mat.pattern.yaml");
    write(&file, &text);
    let seen = seen(&file, number, &format!("strips: {strips}"), "strips: 1");
    let column = line.find("strips: ").unwrap() + "strips: ".len();
    assert_eq!(seen["found"].as_array().unwrap().len(), 1, "{seen}");
    let found = &seen["found"][0];
    assert_eq!((&found[0], &found[1]), (&json!(number - 1), &json!(column)), "{seen}");
    assert_eq!((&found[3], &found[6]), (&json!(1), &json!("sparestrip")), "{seen}");
    assert_eq!(
        seen["titles"][0].as_str().unwrap().split(" (").next(),
        Some(&*format!("Change 1 to {strips}")),
        "{seen}"
    );
    assert_eq!(seen["text"], text, "as it was before the fault");
    assert_eq!(text_of(&file), text, "nothing was saved");
}
