import { inEnglish } from '../../src-core/words/in-english.ts';
import path from 'node:path';
import { renderUnicodeCompact } from 'uqr';
import { displayOf, readFirstPage } from '../bootstrap/first-page.ts';
import { withKeptPlace } from '../bootstrap/kept-place.ts';
import { certificateFolder, programFolder, stationFile } from '../bootstrap/program-files.ts';
import { startFaultInWords, startFaultOf, type StartFault } from '../bootstrap/start-fault.ts';
import { makeJoinCode } from '../operations/access/join-codes.ts';
import type { ApplicationContext } from '../operations/application-context.ts';
import { guideTag } from './kept-guide.ts';
import { freePort, isFree, USUAL_PORT } from './free-port.ts';
import { listenOptionsOf, ListenOptionsError, type ListenOptions } from './listen-options.ts';
import { StartUp } from './start-up.ts';
import { stationLog } from './station-log.ts';
import type { Inside } from './door-settings.ts';
import { NetworkDoor } from './network-door.ts';
import { StationMemory } from './station-settings.ts';
import { startStation } from './station.ts';

/** The process is gone by then, whatever still hangs. */
const END_WITHIN_MS = 4500;

// `node src-main/station/index.ts [--port N] [--listen ADDRESS[:PORT] --certificate FILE --key FILE]`: the station on its own.
try {
  const environment = withKeptPlace(process.env);
  await run(listenOptionsOf(process.argv.slice(2), environment), environment);
} catch (error) {
  if (error instanceof ListenOptionsError) {
    console.error(error.message);
    process.exit(2);
  }
  // Without a port, or without its own files, there is no page to say it on.
  console.error(startFaultInWords(startFaultOf(error)));
  process.exit(1);
}

async function run(options: ListenOptions, environment: NodeJS.ProcessEnv): Promise<void> {
  const { port: asked, isOpenToNetwork, isInviting } = options;
  const folder = programFolder(import.meta.dirname);
  const rendererFolder = path.join(folder, 'out', 'renderer');
  const log = stationLog(environment);
  const memory = new StationMemory(stationFile(environment));
  const { token, port: lastPort, isOpenToNetwork: wasOpen } = memory.settings;
  const isTaken = asked !== null && asked > 0 && !(await isFree(asked));
  const start = new StartUp(folder, environment, log);
  await start.tryAgain();
  if (isTaken) start.fault ??= portTaken(asked);
  const inside: Inside = {
    rendererFolder,
    dispatcher: start,
    start,
    guideTag: () => start.program && guideTag(start.program),
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
  };
  const station = await startStation(inside, {
    port: asked === null || isTaken ? await freePort(asked ?? lastPort ?? USUAL_PORT) : asked,
    token,
  });
  const network = new NetworkDoor({
    plan: options.network,
    isSaidAtStart: isOpenToNetwork !== null,
    inside,
    certificateFolder: certificateFolder(environment),
    remember: (isOpen) => memory.change({ isOpenToNetwork: isOpen }),
    warn: (words) => log.warn(words),
  });
  start.network = network;
  if (isOpenToNetwork ?? wasOpen)
    try {
      await network.open();
    } catch (error) {
      // Whoever said that it is to be open is not to find it closed.
      if (isOpenToNetwork) {
        await station.close();
        throw error;
      }
      // Of the switch in the settings, which says why: no reason not to start.
      log.warn(
        `Tablets and phones cannot come in: ${error instanceof Error ? error.message : String(error)}`,
      );
    }
  // A port that was asked for is for this once; the token is the same in any case.
  memory.change({ port: asked === null ? station.port : lastPort });
  if (start.fault) log.warn(startFaultInWords(start.fault));
  const casebook = start.program?.casebook;
  if (casebook && !casebook.isOpen) log.warn(casebook.problem);
  for (const warning of casebook?.warnings ?? []) log.warn(inEnglish(warning));
  let isEnding = false;
  const stop = async () => {
    if (isEnding) return;
    isEnding = true;
    setTimeout(() => process.exit(1), END_WITHIN_MS).unref();
    await Promise.all([station.close(), network.close()]);
    await start.close();
    log.info('stopped');
    process.exit(0);
  };
  process.on('SIGINT', () => void stop());
  process.on('SIGTERM', () => void stop());

  log.info('started', { port: station.port, networkPort: network.port });
  console.log(`Beadwright is at ${station.address}${casebook ? ` (casebook ${casebook.place})` : ''}`);
  console.log('That address lets in whoever has it, on this machine: keep it to yourself.');
  if (network.port !== null && start.program) await sayWhereDevicesJoin(start.program, isInviting);
}

async function sayWhereDevicesJoin(
  { desk, casebook, now }: ApplicationContext,
  isInviting: boolean,
): Promise<void> {
  const [first = ''] = desk.addresses;
  console.log(`Devices of the network find it at ${desk.addresses.join(', ')}`);
  const root = desk.network?.view.root;
  if (root?.page) console.log(`Each installs the station's root certificate once, from ${root.page}`);
  if (root) console.log(`Its SHA-256 fingerprint is ${root.fingerprint}`);
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
