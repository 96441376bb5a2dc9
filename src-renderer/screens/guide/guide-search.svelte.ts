/** What is searched for in the guide; kept while sheets are opened and left again. */
class GuideSearch {
  query = $state('');
}

export const guideSearch = new GuideSearch();
