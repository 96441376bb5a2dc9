/** Light or dark; "system": as the device is set. */
export const THEMES = ['system', 'light', 'dark'] as const;
export type Theme = (typeof THEMES)[number];

export const TEMPERATURE_UNITS = ['°C', '°F'] as const;
export type TemperatureUnit = (typeof TEMPERATURE_UNITS)[number];

/** A language tag as in BCP 47, as far as a file name may carry it. */
export const LANGUAGE_TAG = /^[a-z]{2,3}(?:-[A-Za-z0-9]{2,8}){0,4}$/;
export const ENGLISH = 'en';

/** How the shop's screens show things. */
export interface Display {
  readonly theme: Theme;
  readonly temperatureUnit: TemperatureUnit;
}

/** While nobody has said. */
export const FIRST_DISPLAY: Display = { theme: 'system', temperatureUnit: '°C' };
