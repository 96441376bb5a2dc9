import path from 'node:path';
import { renderUnicodeCompact } from 'uqr';
import { displayOf, readFirstPage } from '../bootstrap/first-page.ts';
import { programFolder, stationFile } from '../bootstrap/program-files.ts';
import { startFaultInWords, startFaultOf, type StartFault } from '../bootstrap/start-fault.ts';
import { makeJoinCode } from '../operations/access/join-codes.ts';
import type { ApplicationContext } from '../operations/application-context.ts';
import { freePort, isFree, USUAL_PORT } from './free-port.ts';
import { listenOptionsOf, ListenOptionsError, type ListenOptions } from './listen-options.ts';
import { StartUp } from './start-up.ts';
import { stationLog } from './station-log.ts';
import { readStationSettings, writeStationSettings } from './station-settings.ts';
import { startStation } from './station.ts';

/** The process is gone by then, whatever still hangs. */
const END_WITHIN_MS = 4500;

// `node src-main/station/index.ts [--port N] [--listen ADDRESS[:PORT] --certificate FILE --key FILE]`: the station on its own.
try {
  await run(listenOptionsOf(process.argv.slice(2), process.env));
} catch (error) {
  if (error instanceof ListenOptionsError) {
    console.error(error.message);
    process.exit(2);
  }
  // Without a port, or without its own files, there is no page to say it on.
  console.error(startFaultInWords(startFaultOf(error)));
  process.exit(1);
}

async function run({ port: asked, network, isInviting }: ListenOptions): Promise<void> {
  const folder = programFolder(import.meta.dirname);
  const rendererFolder = path.join(folder, 'out', 'renderer');
  const settingsFile = stationFile(process.env);
  const log = stationLog(process.env);
  const remembered = readStationSettings(settingsFile);
  const isTaken = asked !== null && asked > 0 && !(await isFree(asked));
  const start = new StartUp(folder, process.env, log);
  await start.tryAgain();
  if (isTaken) start.fault ??= portTaken(asked);
  const station = await startStation({
    port: asked === null || isTaken ? await freePort(asked ?? remembered.port ?? USUAL_PORT) : asked,
    token: remembered.token,
    rendererFolder,
    dispatcher: start,
    start,
    readPage: async (visitor) =>
      readFirstPage(
        rendererFolder,
        start.program ? await displayOf(start.program.casebook) : undefined,
        visitor.kind === 'device' ? visitor.printerId : null,
      ),
    followChanges: start.changes.follow,
    readPhoto: async (hash) => (await start.program?.casebook.photos.read(hash)) ?? null,
    doorkeeper: () => start.doorkeeper,
    log,
    ...(network && { network }),
  });
  // A port that was asked for is for this once; the token is the same in any case.
  const port = asked === null ? station.port : remembered.port;
  if (settingsFile !== ':memory:') writeStationSettings(settingsFile, { port, token: remembered.token });
  if (start.fault) log.warn(startFaultInWords(start.fault));
  const casebook = start.program?.casebook;
  if (casebook && !casebook.isOpen) log.warn(casebook.problem);
  if (casebook?.warning) log.warn(casebook.warning);
  log.info('started', { port: station.port, networkPort: station.network?.port ?? null });
  console.log(`Beadwright is at ${station.address}${casebook ? ` (casebook ${casebook.place})` : ''}`);
  console.log('That address lets in whoever has it, on this machine: keep it to yourself.');
  if (network && station.network) {
    start.addresses = network.addresses(station.network.port);
    if (start.program) await sayWhereDevicesJoin(start.program, isInviting);
  }

  let isEnding = false;
  const stop = async () => {
    if (isEnding) return;
    isEnding = true;
    setTimeout(() => process.exit(1), END_WITHIN_MS).unref();
    await station.close();
    await start.close();
    log.info('stopped');
    process.exit(0);
  };
  process.on('SIGINT', () => void stop());
  process.on('SIGTERM', () => void stop());
}

async function sayWhereDevicesJoin(
  { desk, casebook, now }: ApplicationContext,
  isInviting: boolean,
): Promise<void> {
  const [first = ''] = desk.addresses;
  console.log(`Devices of the network find it at ${desk.addresses.join(', ')}`);
  if (first.startsWith('http:'))
    console.log('This is plain HTTP: whoever is on the network can read along and take over a device.');
  if (!isInviting) {
    console.log('A device joins with a code: open the shop in the address above, and there Devices.');
    return;
  }
  if (!casebook.isOpen) return;
  const { code } = await makeJoinCode(
    casebook.db,
    { label: 'Device of the lead', role: 'lead', printerId: null },
    now().getTime(),
  );
  const address = `${first}/join?code=${code}`;
  console.log(`A device of the lead joins once, within ten minutes, at ${address}`);
  console.log(renderUnicodeCompact(address, { ecc: 'M', border: 2 }));
}

function portTaken(port: number): StartFault {
  return {
    title: `Port ${port} is taken by another program, or by another Beadwright.`,
    reason: `Beadwright is at the next free port this once.`,
    wayOn: `Go on here; or close the other one and start Beadwright again, and it is at port ${port}.`,
  };
}
