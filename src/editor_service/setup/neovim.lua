-- Neovim, 0.7 or later. Put this in init.lua, in the folder that :echo stdpath("config") names.
-- What a word means is vim.lsp.buf.hover(), a correction vim.lsp.buf.code_action(), another name vim.lsp.buf.rename();
-- words are completed with Ctrl-X Ctrl-O.
local client
vim.api.nvim_create_autocmd({ "BufReadPost", "BufNewFile" }, {
  pattern = { "*.pattern.yaml", "*.pattern.yml", "house-rules.yaml" },
  callback = function(event)
    local service = {
      name = "sparestrip",
      cmd = { "sparestrip", "lsp" },
      root_dir = vim.fn.fnamemodify(vim.api.nvim_buf_get_name(event.buf), ":p:h"),
      -- strict: queries are errors. signed: every manuscript must be signed off. hints: what is needed, at each number.
      init_options = { strict = false, signed = false, hints = false },
    }
    vim.bo[event.buf].omnifunc = "v:lua.vim.lsp.omnifunc"
    if vim.lsp.start then
      vim.lsp.start(service, { bufnr = event.buf })
    else
      client = client or vim.lsp.start_client(service)
      vim.lsp.buf_attach_client(event.buf, client)
    end
  end,
})
