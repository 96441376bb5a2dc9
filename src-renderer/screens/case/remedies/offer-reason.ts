import type { RemedyOffer } from '../../../../src-core/contract/case-view.ts';
import { OUTCOME_WORDS } from '../../../wording/case-words.ts';

/** Chances nearer than this read as the same. */
const SAME_CHANCE = 0.03;
/** Times nearer than this read as the same, minutes. */
const SAME_MINUTES = 2;

type Offer = Pick<RemedyOffer, 'repairProbability' | 'minutesHandsOn' | 'minutesWaiting' | 'wasTried'>;

/** Why an alternative stands where it does, held against the one that is proposed. */
export function reasonForPlace(offer: Offer, first: Offer): string {
  if (offer.wasTried) return `Tried: ${OUTCOME_WORDS[offer.wasTried].toLowerCase()}`;
  const chance = offer.repairProbability - first.repairProbability;
  const minutes = total(offer) - total(first);
  const isLonger = minutes > SAME_MINUTES;
  const isShorter = minutes < -SAME_MINUTES;
  if (chance > SAME_CHANCE) return isLonger ? 'More likely to help, but takes longer' : 'More likely to help';
  if (chance < -SAME_CHANCE) {
    if (isShorter) return 'Quicker, but less likely to help';
    return isLonger ? 'Less likely to help, and takes longer' : 'Less likely to help';
  }
  if (isLonger) return 'As likely to help, but takes longer';
  return isShorter ? 'As likely to help, and quicker' : 'As good';
}

function total(offer: Offer): number {
  return offer.minutesHandsOn + offer.minutesWaiting;
}
