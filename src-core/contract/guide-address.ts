/** Where a station gives the guide to a page: by an address of its own, so that a browser keeps it. */
export const GUIDE_ADDRESS = 'guide';
