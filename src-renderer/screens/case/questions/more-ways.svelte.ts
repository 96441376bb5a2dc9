/** Whether the other ways on from a question are shown: who wants them wants them at the next question, too. */
class MoreWays {
  areOpen = $state(false);
}

export const moreWays = new MoreWays();
