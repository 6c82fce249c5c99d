// Starts `hts language-server` for the editor; everything it shows comes from there.
"use strict";
const fs = require("fs");
const path = require("path");
const { window, workspace } = require("vscode");
const { LanguageClient } = require("vscode-languageclient/node");

let client;

/** The program: the setting, the folder's own (only where it is trusted), the search path. */
function program() {
  const set = workspace.getConfiguration("hts").get("path");
  if (set) return set;
  const windows = process.platform === "win32";
  if (workspace.isTrusted) {
    for (const folder of workspace.workspaceFolders || []) {
      const own = windows ? [".venv", "Scripts", "hts.exe"] : [".venv", "bin", "hts"];
      const found = path.join(folder.uri.fsPath, ...own);
      if (folder.uri.scheme === "file" && fs.existsSync(found)) return found;
    }
  }
  for (const folder of (process.env.PATH || "").split(path.delimiter)) {
    const found = path.join(folder, windows ? "hts.exe" : "hts");
    // A name without a folder would be looked for in the folder that is open.
    if (path.isAbsolute(folder) && fs.existsSync(found)) return found;
  }
  return undefined;
}

function settings() {
  return { trusted: workspace.isTrusted, hints: workspace.getConfiguration("hts").get("hints") };
}

async function start() {
  const command = program();
  if (!command) {
    window.showErrorMessage(
      'hts was not found, so that nothing is checked. Install it: pip install "hts[editor]". Or name it in the setting hts.path.'
    );
    return;
  }
  client = new LanguageClient(
    "hts",
    "hts",
    { command, args: ["language-server"] },
    {
      // Files and texts not saved yet; what is shown of other revisions is left alone.
      documentSelector: ["file", "untitled"].map((scheme) => ({ scheme, language: "hts" })),
      initializationOptions: settings(),
    }
  );
  try {
    await client.start();
  } catch (error) {
    window.showErrorMessage(`${command} could not be started as language server: ${error.message}`);
    client = undefined;
  }
}

async function stop() {
  const running = client;
  client = undefined;
  if (running) await running.stop();
}

async function activate(context) {
  context.subscriptions.push(
    workspace.onDidGrantWorkspaceTrust(() => stop().then(start)),
    workspace.onDidChangeConfiguration((change) => {
      if (change.affectsConfiguration("hts.path")) return stop().then(start);
      if (change.affectsConfiguration("hts") && client) {
        client.sendNotification("workspace/didChangeConfiguration", { settings: { hts: settings() } });
      }
    })
  );
  await start();
}

module.exports = { activate, deactivate: stop };
