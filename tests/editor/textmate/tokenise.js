// Tokenises texts with the TextMate grammar and prints, for each text, its scopes by offset.
// usage: node tokenise.js NODE_MODULES GRAMMAR TEXT…
const fs = require("fs");
const path = require("path");
const [modules, grammarPath, ...texts] = process.argv.slice(2);
const load = (name) => require(path.join(modules, name));
const { Registry, parseRawGrammar, INITIAL } = load("vscode-textmate");
const oniguruma = load("vscode-oniguruma");

async function main() {
  const wasm = fs.readFileSync(path.join(modules, "vscode-oniguruma/release/onig.wasm"));
  await oniguruma.loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength));
  const registry = new Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async () => parseRawGrammar(fs.readFileSync(grammarPath, "utf8"), grammarPath),
  });
  const grammar = await registry.loadGrammar("source.hts");
  const found = {};
  for (const file of texts) {
    const tokens = [];
    let state = INITIAL;
    let line = 0;
    for (const text of fs.readFileSync(file, "utf8").split(/\r?\n/)) {
      const result = grammar.tokenizeLine(text, state);
      for (const token of result.tokens) {
        tokens.push([line, token.startIndex, token.endIndex, token.scopes[token.scopes.length - 1]]);
      }
      state = result.ruleStack;
      line += 1;
    }
    found[file] = tokens;
  }
  console.log(JSON.stringify(found));
}

main();
