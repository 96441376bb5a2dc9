import { contextBridge, ipcRenderer, type IpcRendererEvent } from 'electron';
import { CALL_NAMES } from '../../src-core/contract/call-names.ts';

// One function per call, each with its literal name; no generic channel crosses the bridge.
const calls = Object.fromEntries(
  CALL_NAMES.map((name) => [name, (input: unknown) => ipcRenderer.invoke('beadwright:call', name, input)]),
);

/** Hears what was written; the event, which leads back to the main process, stays on this side. */
function followChanges(listener: (change: unknown) => void): () => void {
  const hear = (_event: IpcRendererEvent, change: unknown) => listener(change);
  ipcRenderer.on('beadwright:change', hear);
  return () => void ipcRenderer.removeListener('beadwright:change', hear);
}

contextBridge.exposeInMainWorld('beadwright', { ...calls, followChanges });
