import type { RemedyOffer } from '../../../../src-core/contract/case-view.ts';
import { OUTCOME_WORDS } from '../../../wording/case-words.ts';
import { m } from '../../../messages/en/case-remedies.ts';

/** Chances nearer than this read as the same. */
const SAME_CHANCE = 0.03;
/** Times nearer than this read as the same, minutes. */
const SAME_MINUTES = 2;

type Offer = Pick<RemedyOffer, 'repairProbability' | 'minutesHandsOn' | 'minutesWaiting' | 'wasTried'>;

/** Why an alternative stands where it does, held against the one that is proposed. */
export function reasonForPlace(offer: Offer, first: Offer): string {
  if (offer.wasTried) return m.triedWithOutcome({ outcome: OUTCOME_WORDS[offer.wasTried].toLowerCase() });
  const chance = offer.repairProbability - first.repairProbability;
  const minutes = total(offer) - total(first);
  const isLonger = minutes > SAME_MINUTES;
  const isShorter = minutes < -SAME_MINUTES;
  if (chance > SAME_CHANCE) return isLonger ? m.moreLikelyToHelpButTakes() : m.moreLikelyToHelp();
  if (chance < -SAME_CHANCE) {
    if (isShorter) return m.quickerButLessLikelyToHelp();
    return isLonger ? m.lessLikelyToHelpAndTakes() : m.lessLikelyToHelp();
  }
  if (isLonger) return m.asLikelyToHelpButTakes();
  return isShorter ? m.asLikelyToHelpAndQuicker() : m.asGood();
}

function total(offer: Offer): number {
  return offer.minutesHandsOn + offer.minutesWaiting;
}
