// `npm run bench`: times at the shipped guide. `npm run bench -- shop …`: a whole shop.
export {};

await import(process.argv[2] === 'shop' ? './shop/index.ts' : './index.ts');
