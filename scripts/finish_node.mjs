// Write the list of a site's files into its service worker: finish_node.mjs SITE WORKER TARGET
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { gunzipSync } from "node:zlib";

const here = dirname(fileURLToPath(import.meta.url));
const npm = join(here, "..", ".build", "npm", "node_modules");
const { injectManifest } = createRequire(import.meta.url)(join(npm, "workbox-build"));
const [, , site, worker, target] = process.argv;

const digest = (bytes) => createHash("sha256").update(bytes).digest("base64").slice(0, 22);

/** A page is fetched at its folder's address: many hosts send its file's name there anyway. */
const address = (name) => name.replace(/(^|\/)index\.html$/, "$1") || "./";

/** What every visit but the first starts from: unpacking it each time would take longer than the rest. */
const KEPT_UNPACKED = /\/memory\.gz$/;

const withDigests = (entries) => ({
  manifest: entries.map(({ url, size }) => {
    const bytes = readFileSync(join(site, url));
    const digests = [digest(bytes)];
    if (!url.endsWith(".gz")) return { url: address(url), bytes: size, digests };
    const content = gunzipSync(bytes);
    digests.push(digest(content));
    const unpacked = KEPT_UNPACKED.test(url);
    return { url: address(url), bytes: unpacked ? content.length : size, digests, unpacked };
  }),
});

const { count, size, warnings } = await injectManifest({
  globDirectory: site,
  globPatterns: ["**/*"],
  globIgnores: [
    "service-worker.js",
    "headers.txt",
    "404.html",
    // For a slow link, or for when a part of the runtime can't be had; what is kept is kept whole.
    "**/*.wasm.gz",
    "**/library-*.gz",
    "sitemap.xml.gz",
    "assets/yardstick-offline.zip",
  ],
  maximumFileSizeToCacheInBytes: 40_000_000,
  manifestTransforms: [withDigests],
  swSrc: worker,
  swDest: target,
});
if (warnings.length) throw new Error(warnings.join("\n"));
console.log(JSON.stringify({ count, size }));
