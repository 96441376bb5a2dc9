import type { BrowserWindowConstructorOptions } from 'electron';
import type { WindowState } from './window-state.ts';

/** The one window's options. The security settings are Electron's defaults today; said here so that a test pins them. */
export function windowOptions(preload: string, state: WindowState): BrowserWindowConstructorOptions {
  return {
    width: state.bounds.width,
    height: state.bounds.height,
    ...(state.bounds.x === undefined || state.bounds.y === undefined
      ? {}
      : { x: state.bounds.x, y: state.bounds.y }),
    minWidth: 720,
    minHeight: 560,
    show: false,
    title: 'Beadwright',
    backgroundColor: '#f4f2ec',
    autoHideMenuBar: true,
    webPreferences: {
      preload,
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      nodeIntegrationInSubFrames: false,
      webviewTag: false,
      webSecurity: true,
      spellcheck: false,
    },
  };
}
