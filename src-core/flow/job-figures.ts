import { SaidError } from '../words/said-error.ts';
import type { Message } from '../words/message.ts';
import type { FileNotes } from './comment-notes.ts';

/** A place in a job file. */
export interface JobPlace {
  /** Line, counted from 1. */
  readonly line: number;
  /** Layer, counted from 1; 0 before the first. */
  readonly layer: number;
}

export interface LayerFigures {
  /** Height of its top above the plate, mm. */
  readonly zMm: number;
  readonly line: number;
  readonly seconds: number;
  readonly filamentMm: number;
  /** Mean flow while extruding, and largest over half a second, mm³/s. */
  readonly meanFlowMm3PerS: number;
  readonly peakFlowMm3PerS: number;
  /** Set points as the layer began; null where none was given. */
  readonly nozzleC: number | null;
  readonly plateC: number | null;
  /** Mean over its time, 0 to 1. */
  readonly fanShare: number;
  /** Mean speed while extruding, mm/s. */
  readonly speedMmPerS: number;
}

/**
 * What a job file asks of the machine. Times come from distance and feed rate alone: acceleration is left out, so
 * they are lower bounds, and flows are upper bounds where moves are short.
 */
export interface JobFigures {
  readonly lines: number;
  readonly bytes: number;
  readonly seconds: number;
  /** Filament used, purges on the spot counted; what is drawn back and pushed again counts once. */
  readonly filamentMm: number;
  readonly volumeMm3: number;
  readonly travelMm: number;
  /** Flow kept up over half a second and more: the largest, and what is not passed in 95 % of the extruding time. */
  readonly peakFlow: { readonly mm3PerS: number; readonly at: JobPlace } | null;
  readonly p95FlowMm3PerS: number;
  readonly layers: readonly LayerFigures[];
  /** Layers after the 20,000th are counted, not kept. */
  readonly layerCount: number;
  readonly firstLayer: { readonly heightMm: number; readonly speedMmPerS: number } | null;
  /** Steps from layer to layer, mm: the commonest and the largest. */
  readonly layerHeight: {
    readonly usualMm: number;
    readonly largestMm: number;
    readonly largestAt: JobPlace;
  } | null;
  readonly shortestLayer: { readonly seconds: number; readonly at: JobPlace } | null;
  readonly retractions: {
    readonly count: number;
    /** Firmware retractions (G10) among them; their length is set in the machine. */
    readonly byFirmware: number;
    readonly usualLengthMm: number;
    readonly usualSpeedMmPerS: number;
    readonly perMetreOfFilament: number;
  };
  /** Nozzle set point while extruding, °C, weighted by time. */
  readonly nozzle: { readonly usualC: number; readonly lowestC: number; readonly highestC: number } | null;
  readonly plateC: number | null;
  readonly chamberC: number | null;
  /** Part fan after the third layer, mean, 0 to 1. */
  readonly fanShare: number;
  /** Dwells of ten seconds and more, and stops for the operator. */
  readonly pauses: readonly { readonly seconds: number | null; readonly at: JobPlace }[];
  readonly tools: readonly number[];
  /** What it says of itself in its comments. */
  readonly said: FileNotes;
  /** Oddities that do not stop the reading, in words, each once. */
  readonly notes: readonly Message[];
}

/** A file that cannot be a job: names the place and what would be right. */
export class JobFileError extends SaidError {}
