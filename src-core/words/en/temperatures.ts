import { catalogue } from '../message.ts';

/** Temperatures, and differences of them, in the reader's unit. */
export const temperatureTexts = catalogue('temperatures', {
  celsius: '{value} °C',
  celsiusFromTo: '{low} to {high} °C',
  fahrenheit: '{value} °F',
  fahrenheitFromTo: '{low} to {high} °F',
});
