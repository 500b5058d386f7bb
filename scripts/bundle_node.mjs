// Bundle one entry of the client to one classic script: bundle_node.mjs ENTRY TARGET DEFINITIONS
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const npm = join(here, "..", ".build", "npm", "node_modules");
const esbuild = createRequire(import.meta.url)(join(npm, "esbuild"));
const [, , entry, target, definitions] = process.argv;

esbuild.buildSync({
  entryPoints: [entry],
  outfile: target,
  define: JSON.parse(definitions),
  nodePaths: [npm],
  bundle: true,
  minify: true,
  format: "iife",
  target: "es2022",
  charset: "utf8",
  logLevel: "error",
});
