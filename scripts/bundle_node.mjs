// Bundle one entry of the client to one classic script: bundle_node.mjs ENTRY TARGET DEFINITIONS
// The script names the packages that went into it, and so does a list beside it.
import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const npm = join(here, "..", ".build", "npm", "node_modules");
const esbuild = createRequire(import.meta.url)(join(npm, "esbuild"));
const [, , entry, target, definitions] = process.argv;

const { metafile } = esbuild.buildSync({
  metafile: true,
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

const inside = Object.keys(metafile.inputs).map((path) =>
  /node_modules\/((?:@[^/]+\/)?[^/]+)\/(?!.*node_modules)/.exec(path)?.[1],
);
const packages = [...new Set(inside.filter(Boolean))].sort();
writeFileSync(`${target}.packages.json`, JSON.stringify(packages));
if (packages.length) {
  const named = packages.map((name) => {
    const stated = JSON.parse(readFileSync(join(npm, name, "package.json"), "utf8"));
    return `${name} ${stated.version} (${stated.license})`;
  });
  const script = readFileSync(target, "utf8");
  writeFileSync(target, `/*! With ${named.join(", ")}: see licenses.txt */\n${script}`);
}
