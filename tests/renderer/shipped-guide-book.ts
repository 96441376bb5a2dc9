import { guideView } from '../../src-core/knowledge/guide-view.ts';
import { createGuideBook, type GuideBook } from '../../src-renderer/host/guide-book.ts';
import { shippedKnowledge } from '../shipped-knowledge.ts';

/** The shipped guide as screens get it. */
export function shippedGuideBook(): GuideBook {
  return createGuideBook(guideView(shippedKnowledge()));
}
