import { displayOf, readFirstPage } from '../bootstrap/first-page.ts';
import { certificateFolder, stationFile } from '../bootstrap/program-files.ts';
import { Doorkeeper } from '../operations/access/doorkeeper.ts';
import type { ApplicationContext } from '../operations/application-context.ts';
import { createDispatcher } from '../operations/dispatcher.ts';
import { handlers } from '../operations/handlers.ts';
import { dispatchAtDoor } from '../station/device-dispatch.ts';
import { listenOptionsOf } from '../station/listen-options.ts';
import { NetworkDoor } from '../station/network-door.ts';
import { StationMemory } from '../station/station-settings.ts';

/**
 * The door for tablets and phones behind a window, open or closed as the switch in the settings was left. It is opened beside
 * the window: one that cannot be opened says so there, and holds nothing up.
 */
export function openToNetwork(
  program: ApplicationContext,
  rendererFolder: string,
  environment: NodeJS.ProcessEnv,
): NetworkDoor {
  const memory = new StationMemory(stationFile(environment));
  const doorkeeper = new Doorkeeper(program);
  const dispatcher = createDispatcher(program, handlers, 'station', {
    log: (message, error) => console.error(message, error),
  });
  const { network: plan, isOpenToNetwork } = listenOptionsOf([], environment);
  const door = new NetworkDoor({
    plan,
    isSaidAtStart: isOpenToNetwork !== null,
    inside: {
      rendererFolder,
      dispatcher: { dispatch: dispatchAtDoor(dispatcher, doorkeeper) },
      readPage: async (visitor) =>
        readFirstPage(
          rendererFolder,
          await displayOf(program.casebook),
          visitor.kind === 'device' ? visitor.printerId : null,
        ),
      readPhoto: (hash) => program.casebook.photos.read(hash),
      followChanges: program.changes.follow,
      doorkeeper: () => doorkeeper,
    },
    certificateFolder: certificateFolder(environment),
    remember: (isOpen) => memory.change({ isOpenToNetwork: isOpen }),
    warn: (words) => console.error(words),
  });
  program.desk.network = door;
  if (isOpenToNetwork ?? memory.settings.isOpenToNetwork)
    // `view.problem` says why not.
    void door.open().catch(() => undefined);
  return door;
}
