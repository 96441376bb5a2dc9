import path from 'node:path';
import { createDispatcher } from '../operations/dispatcher.ts';
import { handlers } from '../operations/handlers.ts';
import { programFolder } from '../hosting/program-files.ts';
import { displayOf, readFirstPage } from '../hosting/first-page.ts';
import { startFaultInWords } from '../hosting/start-fault.ts';
import { startProgram } from '../hosting/start-program.ts';
import { freePort, isFree, USUAL_PORT } from './free-port.ts';
import { readStationSettings, writeStationSettings } from './station-settings.ts';
import { startStation } from './station.ts';

/** The process is gone by then, whatever still hangs. */
const END_WITHIN_MS = 4500;

// `node src-main/station/index.ts [--port N]`: the station on its own.
try {
  await run();
} catch (error) {
  console.error(startFaultInWords(error));
  process.exit(1);
}

async function run(): Promise<void> {
  const folder = programFolder(import.meta.dirname);
  const asked = askedPort();
  if (asked !== null && asked > 0 && !(await isFree(asked))) {
    console.error(
      `Port ${asked} is taken by another program, or by another Beadwright. Close that one, or leave --port out: the next free one is used then.`,
    );
    process.exit(1);
  }
  const program = await startProgram('station', folder, process.env);
  const dispatcher = createDispatcher(program, handlers, 'station', {
    log: (message, error) => console.error(message, error),
  });
  const settingsFile = `${program.casebook.file}.station.json`;
  const rendererFolder = path.join(folder, 'out', 'renderer');
  const remembered = readStationSettings(settingsFile);
  const station = await startStation({
    port: asked ?? (await freePort(remembered.port ?? USUAL_PORT)),
    token: remembered.token,
    rendererFolder,
    readPage: async () => readFirstPage(rendererFolder, await displayOf(program.casebook)),
    dispatcher,
    readPhoto: (hash) => program.casebook.photos.read(hash),
  });
  // A port that was asked for is for this once; the token is the same in any case.
  const port = asked === null ? station.port : remembered.port;
  if (program.casebook.file !== ':memory:')
    writeStationSettings(settingsFile, { port, token: remembered.token });
  if (!program.casebook.isOpen) console.error(program.casebook.problem);
  if (program.casebook.warning) console.error(program.casebook.warning);
  console.log(`Beadwright is at ${station.address} (casebook ${program.casebook.file})`);
  console.log('That address lets in whoever has it: keep it to yourself.');

  let isEnding = false;
  const stop = async () => {
    if (isEnding) return;
    isEnding = true;
    setTimeout(() => process.exit(1), END_WITHIN_MS).unref();
    await station.close();
    await program.reasoner.close();
    await program.casebook.close();
    process.exit(0);
  };
  process.on('SIGINT', () => void stop());
  process.on('SIGTERM', () => void stop());
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
