import { randomBytes } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { writePrivateFile } from '../casebook/private-files.ts';

const stationSettingsSchema = z.strictObject({
  /** The port that the station had last; asked for again, so that an open page and a bookmark find it. */
  port: z.number().int().min(1).max(65_535).nullable(),
  /** What lets a browser in. Kept over restarts, so that an open page goes on. */
  token: z.string().regex(/^[\w-]{43}$/),
  /** Whether tablets and phones come in, as the switch in the settings says. */
  isOpenToNetwork: z.boolean().default(false),
});
export type StationSettings = z.infer<typeof stationSettingsSchema>;

/** What the station of a casebook remembers, beside that casebook; new where there is nothing yet or it is not readable. */
export function readStationSettings(file: string): StationSettings {
  try {
    return stationSettingsSchema.parse(JSON.parse(readFileSync(file, 'utf8')));
  } catch {
    return { port: null, token: randomBytes(32).toString('base64url'), isOpenToNetwork: false };
  }
}

/** The same, kept with every change; ":memory:" keeps nothing. */
export class StationMemory {
  readonly #file: string;
  #settings: StationSettings;

  constructor(file: string) {
    this.#file = file;
    this.#settings = readStationSettings(file);
  }

  get settings(): StationSettings {
    return this.#settings;
  }

  change(changed: Partial<StationSettings>): void {
    this.#settings = { ...this.#settings, ...changed };
    if (this.#file !== ':memory:') writeStationSettings(this.#file, this.#settings);
  }
}

/** Keeps it, for the owner's eyes only. What cannot be kept lasts until the station ends: no reason not to start. */
export function writeStationSettings(file: string, settings: StationSettings): void {
  try {
    writePrivateFile(file, JSON.stringify(settings));
  } catch {
    // Read-only or full disk.
  }
}
