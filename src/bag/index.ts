/** bag: the BagIt packaging format (RFC 8493) as text and rules. Pure. */
export { declarationText } from './declaration.ts';
export { type InfoField, infoText, oxumText } from './info.ts';
export { algorithmsByPath, judgeSums, type SumsRead } from './judge-sums.ts';
export { manifestText } from './manifest.ts';
export { onceEach } from './once-each.ts';
export { pathInBag } from './path-in-bag.ts';
export { type BagRead, readBag, type TagText } from './read-bag.ts';
export { type Algorithm, type BagFinding, type BagListing, bad } from './shapes.ts';
