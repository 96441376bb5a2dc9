import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { z } from 'zod';

const boundsSchema = z.strictObject({
  x: z.number().int().optional(),
  y: z.number().int().optional(),
  width: z.number().int().min(720).max(20_000),
  height: z.number().int().min(560).max(20_000),
});
const windowStateSchema = z.strictObject({ bounds: boundsSchema, isMaximized: z.boolean() });
export type WindowState = z.infer<typeof windowStateSchema>;

const FIRST_STATE: WindowState = { bounds: { width: 1280, height: 800 }, isMaximized: false };

/** The window's last place and size; the first-start state where there is none or it is not readable. */
export function readWindowState(file: string): WindowState {
  try {
    return windowStateSchema.parse(JSON.parse(readFileSync(file, 'utf8')));
  } catch {
    return FIRST_STATE;
  }
}

/** Keeps the window's place and size. A window that cannot be remembered is no reason to fail. */
export function writeWindowState(file: string, state: WindowState): void {
  try {
    mkdirSync(path.dirname(file), { recursive: true });
    writeFileSync(`${file}.part`, JSON.stringify(state));
    renameSync(`${file}.part`, file);
  } catch {
    // Read-only or full disk: the window opens at its first place next time.
  }
}
