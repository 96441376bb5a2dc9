import path from 'node:path';
import { displayOf, readFirstPage } from '../bootstrap/first-page.ts';
import { casebookFile, programFolder } from '../bootstrap/program-files.ts';
import { startFaultInWords, startFaultOf, type StartFault } from '../bootstrap/start-fault.ts';
import { freePort, isFree, USUAL_PORT } from './free-port.ts';
import { StartUp } from './start-up.ts';
import { readStationSettings, writeStationSettings } from './station-settings.ts';
import { startStation } from './station.ts';

/** The process is gone by then, whatever still hangs. */
const END_WITHIN_MS = 4500;

// `node src-main/station/index.ts [--port N]`: the station on its own.
try {
  await run();
} catch (error) {
  // Without a port, or without its own files, there is no page to say it on.
  console.error(startFaultInWords(startFaultOf(error)));
  process.exit(1);
}

async function run(): Promise<void> {
  const folder = programFolder(import.meta.dirname);
  const rendererFolder = path.join(folder, 'out', 'renderer');
  const file = casebookFile(process.env);
  const settingsFile = `${file}.station.json`;
  const remembered = readStationSettings(settingsFile);
  const asked = askedPort();
  const isTaken = asked !== null && asked > 0 && !(await isFree(asked));
  const start = new StartUp(folder, process.env);
  await start.tryAgain();
  if (isTaken) start.fault ??= portTaken(asked);
  const station = await startStation({
    port: asked === null || isTaken ? await freePort(asked ?? remembered.port ?? USUAL_PORT) : asked,
    token: remembered.token,
    rendererFolder,
    dispatcher: start,
    start,
    readPage: async () =>
      readFirstPage(rendererFolder, start.program ? await displayOf(start.program.casebook) : undefined),
    followChanges: start.changes.follow,
    readPhoto: (hash) => start.program?.casebook.photos.read(hash) ?? null,
  });
  // A port that was asked for is for this once; the token is the same in any case.
  const port = asked === null ? station.port : remembered.port;
  if (file !== ':memory:') writeStationSettings(settingsFile, { port, token: remembered.token });
  if (start.fault) console.error(startFaultInWords(start.fault));
  const casebook = start.program?.casebook;
  if (casebook && !casebook.isOpen) console.error(casebook.problem);
  if (casebook?.warning) console.error(casebook.warning);
  console.log(`Beadwright is at ${station.address} (casebook ${file})`);
  console.log('That address lets in whoever has it: keep it to yourself.');

  let isEnding = false;
  const stop = async () => {
    if (isEnding) return;
    isEnding = true;
    setTimeout(() => process.exit(1), END_WITHIN_MS).unref();
    await station.close();
    await start.close();
    process.exit(0);
  };
  process.on('SIGINT', () => void stop());
  process.on('SIGTERM', () => void stop());
}

function portTaken(port: number): StartFault {
  return {
    title: `Port ${port} is taken by another program, or by another Beadwright.`,
    reason: `Beadwright is at the next free port this once.`,
    wayOn: `Go on here; or close the other one and start Beadwright again, and it is at port ${port}.`,
  };
}

/** The port of `--port` or BEADWRIGHT_PORT, 0 for any; null where nothing was said. */
function askedPort(): number | null {
  const flag = process.argv.indexOf('--port');
  const words = flag > 0 ? (process.argv[flag + 1] ?? '') : process.env['BEADWRIGHT_PORT']?.trim();
  if (words === undefined || (flag < 0 && words === '')) return null;
  const port = Number(words);
  if (words === '' || !(Number.isInteger(port) && port >= 0 && port < 65_536)) {
    console.error('--port takes a whole number from 0 to 65535');
    process.exit(2);
  }
  return port;
}
