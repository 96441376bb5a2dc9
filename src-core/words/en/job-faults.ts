import { catalogue } from '../message.ts';

/** Why a file cannot be read as a job, or as a log of temperatures, and what would be right. */
export const jobFaultTexts = catalogue('jobFaults', {
  damagedAt: 'line {line}: {what}; the file is damaged there',
  dwell: 'G4 waits for {seconds} s',
  longLine:
    'line {line} is longer than {kib} KiB: job files are text in short lines; this may be a compressed or binary file',
  move: 'a move of {distance} mm with {filament} mm of filament cannot be',
  noCommand: '{lines} lines were read and none is a command: job files hold lines like "G1 X10 E0.5"',
  noExtrusion:
    '{lines} lines were read and none extrudes: a job file moves X or Y while E goes forward (G1 X… E…)',
  noFeedRate: 'F{rate} is no feed rate',
  noGcode:
    '{others} of the first {all} commands (to line {line}) are no G-code, the first in line {first}: job files hold lines like "G1 X10 E0.5"',
  noNozzleReading:
    '{lines} lines and no reading of the nozzle: lines like "T:210.3 /215.0", or CSV with a header like "seconds,actual,target", are read',
  noPlateReading:
    '{lines} lines and no reading of the plate: lines like "B:210.3 /215.0", or CSV with a header like "seconds,actual,target", are read',
  nulByte:
    'line {line} holds a NUL byte: this is a binary or damaged file, not plain G-code; export it as text',
  setPoint: 'a set point of {wanted}; they run to {most}',
  utf16: 'this is text in UTF-16: save it as UTF-8 or plain text',
});
export const jobFaults = jobFaultTexts.m;
