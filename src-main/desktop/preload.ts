import { contextBridge, ipcRenderer } from 'electron';
import { CALL_NAMES } from '../../src-core/contract/call-names.ts';

// One function per call, each with its literal name; no generic channel crosses the bridge.
const bridge = Object.fromEntries(
  CALL_NAMES.map((name) => [name, (input: unknown) => ipcRenderer.invoke('beadwright:call', name, input)]),
);
contextBridge.exposeInMainWorld('beadwright', bridge);
