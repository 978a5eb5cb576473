// Prints how even the light of each frame is: node spread.mjs blank.png …
import { readFile } from 'node:fs/promises';
import { basename } from 'node:path';
import { DEFAULT_TOLERANCE, nodePlatform, readFrame, UNKNOWN_SETUP } from 'evenfield/engine';

const platform = nodePlatform();
for (const path of process.argv.slice(2)) {
  const name = basename(path);
  try {
    const bytes = new Uint8Array(await readFile(path));
    const judgedBy = { setup: UNKNOWN_SETUP, tolerance: DEFAULT_TOLERANCE };
    const { reading } = await readFrame([{ name, bytes }], judgedBy, platform);
    const { spreadEv, plusMinusEv } = reading.falloff;
    console.log(
      `${name}: ${spreadEv.toFixed(3)} ± ${plusMinusEv.toFixed(3)} stop, even: ${reading.verdict.even}`,
    );
  } catch (error) {
    console.error(`${name}: ${error.code ?? 'error'}: ${error.message}`);
    process.exitCode = 1;
  }
}
