-- Run in Neovim without a screen: open a page, see a wrong line, mend it, complete a lift, read a hint, rename it, save it.
local out = {}
local function say(...) out[#out + 1] = table.concat(vim.tbl_map(tostring, { ... }), " ") end
local function wait(what, test)
  if not vim.wait(30000, test, 20) then say("waited in vain for " .. what) end
end

vim.lsp.config.loadline = {
  cmd = { vim.env.LOADLINE, "lsp", "--on", "2026-11-25" },
  filetypes = { "markdown", "yaml" },
  root_markers = { "journal.yaml" },
}
vim.lsp.enable("loadline")
vim.cmd.edit("page.md")
vim.bo.filetype = "markdown"
wait("the server", function() return #vim.lsp.get_clients({ name = "loadline", bufnr = 0 }) > 0 end)
local client = vim.lsp.get_clients({ name = "loadline" })[1]
local function ask(method, params)
  local answer = client:request_sync(method, params, 30000, vim.api.nvim_get_current_buf())
  if answer == nil or answer.err then say(method, vim.inspect(answer)) end
  return answer and answer.result
end
local buffer = vim.api.nvim_get_current_buf()
local function lines() return vim.api.nvim_buf_get_lines(0, 0, -1, false) end

-- A wrong line, typed.
vim.api.nvim_buf_set_lines(0, -1, -1, false, { "- Bench press: 3x8 @ 60.5 kg RPE 8-7 (é💪)" })
wait("a problem", function() return #vim.diagnostic.get(0) == 1 end)
local problem = vim.diagnostic.get(0)[1]
say(problem.lnum + 1, problem.col + 1, problem.code, problem.message)

-- Its fix, applied as Neovim applies it.
vim.api.nvim_win_set_cursor(0, { problem.lnum + 1, problem.col })
vim.lsp.buf.code_action({ apply = true, filter = function(action) return action.isPreferred end })
wait("the fix", function() return lines()[problem.lnum + 1] == "- Bench press: 3x8 @ 60.5 kg RPE 7-8 (é💪)" end)
wait("no problem", function() return #vim.diagnostic.get(0) == 0 end)
say(lines()[problem.lnum + 1])

-- A lift, completed.
vim.api.nvim_buf_set_lines(0, -1, -1, false, { "- fr" })
vim.api.nvim_win_set_cursor(0, { vim.api.nvim_buf_line_count(0), 4 })
local params = vim.lsp.util.make_position_params(0, client.offset_encoding)
params.position.character = 4
local item = ask("textDocument/completion", params).items[1]
say(item.label, item.detail)
vim.lsp.util.apply_text_edits({ item.textEdit }, buffer, client.offset_encoding)
local last = vim.api.nvim_buf_line_count(0)
vim.api.nvim_buf_set_lines(0, last - 1, last, false, { lines()[last] .. "3x5 @ 110 kg RPE 8" })

-- A hint.
local range = { start = { line = 0, character = 0 }, ["end"] = { line = last, character = 0 } }
local hints = ask("textDocument/inlayHint", { textDocument = { uri = vim.uri_from_bufnr(0) }, range = range })
for _, hint in ipairs(hints) do say("hint", hint.position.line + 1, hint.label) end

-- Another name, and a save.
vim.api.nvim_win_set_cursor(0, { 3, 3 })
vim.lsp.buf.rename("Harbour squat")
wait("another name", function() return lines()[3]:find("Harbour squat") ~= nil end)
vim.cmd("silent wall")
vim.fn.writefile(out, "said.txt")
vim.cmd("qall!")
