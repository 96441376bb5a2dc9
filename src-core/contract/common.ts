import { INITIALS } from './initials.ts';
import { z } from 'zod';
import { idSchema } from '../knowledge/schema.ts';
import { LONGEST_TAG } from './tag-limits.ts';
import { contractTexts } from '../words/en/contract.ts';

const { texts } = contractTexts;

export { idSchema };

/** Id of a stored record: 26 characters of Crockford base 32, sortable by time of creation. */
export const recordIdSchema = z.string().regex(/^[0-9A-HJKMNP-TV-Z]{26}$/, texts.noRecordId);
/** ISO 8601 time in UTC. */
export const timeSchema = z.iso.datetime();
export const noteSchema = z.string().trim().max(2000);
export const labelSchema = z.string().trim().min(1).max(80);
/** A word or two of the lead's own that a case is found by. */
export const tagSchema = z
  .string()
  .trim()
  .min(1)
  .max(LONGEST_TAG)
  .regex(/^[^\p{Cc}\p{Cs}]*$/u, texts.tag);
/** Initials only: the casebook holds no names of people. */
export const initialsSchema = z.string().trim().regex(INITIALS, texts.initials);
export const probabilitySchema = z.number().min(0).max(1);

/** A photo, by the SHA-256 of its bytes. */
export const photoHashSchema = z.string().regex(/^[0-9a-f]{64}$/, texts.noPhotoHash);

/** Known circumstances: condition id to a value's id or a number in that condition's unit. */
export const conditionsSchema = z.record(idSchema, z.union([idSchema, z.number()]));
/** A measured value known only as a range, in the observation's unit: "180..200". */
export const RANGE_PATTERN = /^(-?\d+(?:\.\d+)?)\.\.(-?\d+(?:\.\d+)?)$/;
/**
 * A finding's value as the operator gives it: a level's id, a measured number in the observation's unit, a range of it, or
 * "present" (grade not said), "probably", "probably-not", "sometimes".
 */
export const findingValueSchema = z.union([
  idSchema,
  z.string().regex(RANGE_PATTERN, texts.range),
  z.number(),
]);

/** Bytes of a file. */
export function bytesSchema(largest: number) {
  return z.instanceof(Uint8Array).refine(({ length }) => length <= largest, {
    params: { said: contractTexts.m.tooLarge({ count: largest }) },
  });
}
