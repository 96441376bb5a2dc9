import path from 'node:path';
import { app, BrowserWindow, dialog, ipcMain, protocol, session } from 'electron';
import { createDispatcher } from '../operations/dispatcher.ts';
import { handlers } from '../operations/handlers.ts';
import { withKeptPlace } from '../bootstrap/kept-place.ts';
import { programFolder } from '../bootstrap/program-files.ts';
import { displayOf, readFirstPage } from '../bootstrap/first-page.ts';
import { startFaultInWords, startFaultOf } from '../bootstrap/start-fault.ts';
import { startApplication } from '../bootstrap/start-application.ts';
import type { ApplicationContext } from '../operations/application-context.ts';
import { registerGate } from './gate.ts';
import { lockDown } from './lock-down.ts';
import { openToNetwork } from './open-to-network.ts';
import { APP_ADDRESS, APP_SCHEME } from './our-frame.ts';
import { quitWhenClosed } from './quit-when-closed.ts';
import { paperHost, PrintedDocuments } from './paper.ts';
import { pushChanges } from './push-changes.ts';
import { screenServer } from './serve-screens.ts';
import { windowOptions } from './window-options.ts';
import { readWindowState, writeWindowState } from './window-state.ts';

protocol.registerSchemesAsPrivileged([
  { scheme: APP_SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true } },
]);

if (!app.requestSingleInstanceLock()) {
  app.quit();
} else {
  run().catch((error: unknown) => {
    // A window of the system's own: none of ours may be there yet. Without it a process would stay that nobody sees.
    dialog.showErrorBox('Beadwright could not start', startFaultInWords(startFaultOf(error)));
    app.exit(1);
  });
}

async function run(): Promise<void> {
  await app.whenReady();
  const folder = programFolder(app.getAppPath());
  const environment = withKeptPlace(process.env);
  const program = await startOrAsk(folder, environment);
  if (!program) return;
  const dispatcher = createDispatcher(program, handlers, 'desktop', {
    log: (message, error) => console.error(message, error),
  });
  lockDown(app, session.defaultSession);
  const documents = new PrintedDocuments();
  const rendererFolder = path.join(folder, 'out', 'renderer');
  protocol.handle(
    APP_SCHEME,
    screenServer(
      rendererFolder,
      (hash) => program.casebook.photos.read(hash),
      async () => readFirstPage(rendererFolder, await displayOf(program.casebook)),
      (pathname) => documents.at(pathname),
    ),
  );
  registerGate(ipcMain, dispatcher);

  const stateFile = path.join(app.getPath('userData'), 'window.json');
  const window = openWindow(path.join(folder, 'out', 'preload', 'preload.cjs'), stateFile);
  program.paper.connect(paperHost(window, documents));
  pushChanges(program.changes.follow, window.webContents);
  app.on('second-instance', () => {
    if (window.isMinimized()) window.restore();
    window.focus();
  });
  app.on('window-all-closed', () => app.quit());
  const network = openToNetwork(program, rendererFolder, environment);
  quitWhenClosed(app, async () => {
    await network.close();
    await program.reasoner.close();
    await program.casebook.close();
  });
  await window.loadURL(APP_ADDRESS);
}

/** The program, or null where the start fails and whoever sits there has enough of trying again. */
async function startOrAsk(
  folder: string,
  environment: NodeJS.ProcessEnv,
): Promise<ApplicationContext | null> {
  for (;;)
    try {
      return await startApplication('desktop', folder, environment);
    } catch (error) {
      const { title, reason, wayOn } = startFaultOf(error);
      // A window of the system's own: none of ours is there yet.
      const { response } = await dialog.showMessageBox({
        type: 'error',
        title: 'Beadwright',
        message: title,
        detail: `${reason}\n\n${wayOn}`,
        buttons: ['Try again', 'Quit'],
        defaultId: 0,
        cancelId: 1,
      });
      if (response === 0) continue;
      app.exit(1);
      return null;
    }
}

function openWindow(preload: string, stateFile: string): BrowserWindow {
  const state = readWindowState(stateFile);
  const window = new BrowserWindow(windowOptions(preload, state));
  if (state.isMaximized) window.maximize();
  window.once('ready-to-show', () => window.show());
  window.on('close', () =>
    writeWindowState(stateFile, { bounds: window.getNormalBounds(), isMaximized: window.isMaximized() }),
  );
  return window;
}
