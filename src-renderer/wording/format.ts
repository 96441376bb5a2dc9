import { fixed } from '../messages/figures.ts';
import { locale } from '../messages/language.ts';
import { m } from '../messages/en/format.ts';

/** 0.123 as "12 %"; the ends keep their doubt: "< 1 %", "> 99 %". */
export function percent(probability: number): string {
  if (probability > 0 && probability < 0.01) return '< 1 %';
  if (probability < 1 && probability > 0.99) return '> 99 %';
  return `${Math.round(probability * 100)} %`;
}

/** Minutes as "5 min", "1 h 20 min", "2 d 4 h". */
export function duration(minutes: number): string {
  const whole = Math.max(minutes > 0 ? 1 : 0, Math.round(minutes));
  if (whole < 60) return m.min({ whole });
  const hours = Math.floor(whole / 60);
  if (hours < 48) return whole % 60 === 0 ? m.h({ hours }) : m.hMin({ hours, whole: whole % 60 });
  const days = Math.floor(hours / 24);
  return hours % 24 === 0 ? m.d({ days }) : m.dH({ days, hours: hours % 24 });
}

/** Weights of evidence with their sign: "+9.0 dB", "−3.0 dB" (decibans). */
export function decibans(weight: number): string {
  const rounded = fixed(Math.abs(weight), 1);
  return `${weight < 0 ? '−' : '+'}${rounded}`;
}

const TO_THE_MINUTE = {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  hour: '2-digit',
  minute: '2-digit',
} as const;

/** A time as the reader's clock has it, or that of a zone: "25 Nov 2026, 09:30". */
export function dateTime(iso: string, timeZone?: string): string {
  return new Date(iso).toLocaleString(locale(), { ...TO_THE_MINUTE, timeZone });
}

/** The same to the second, where times lie close together: "25 Nov 2026, 09:30:05". */
export function dateTimeToSecond(iso: string): string {
  return new Date(iso).toLocaleString(locale(), { ...TO_THE_MINUTE, second: '2-digit' });
}

export function dateOnly(iso: string): string {
  return new Date(iso).toLocaleDateString(locale(), { day: 'numeric', month: 'short', year: 'numeric' });
}

/** A day of the calendar ("2026-11-25"), which is the same wherever it is read: "25 Nov 2026". */
export function calendarDay(day: string): string {
  return dateOnly(`${day}T12:00:00`);
}

/** Day and month for the axis of a plot: "25 Nov". */
export function dayOnly(iso: string): string {
  return new Date(iso).toLocaleDateString(locale(), { day: 'numeric', month: 'short' });
}

/** An amount of the shop's money: "12.50 EUR"; from 100 on without cents. */
export function moneyWords(amount: number, currency: string): string {
  return `${fixed(amount, amount >= 100 ? 0 : 2)} ${currency}`;
}

export function grams(weight: number): string {
  return weight >= 1000 ? m.kg({ weight: fixed(weight / 1000, 1) }) : m.g({ weight: Math.round(weight) });
}
