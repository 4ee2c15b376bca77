/** bagging: bags on the disk, made, read and held against themselves. */

export type { BagEar, BagProgress } from './bag-ear.ts';
export type { BagSource } from './bag-source.ts';
export { type BagReport, checkBag, tagFileBytesMax } from './check-bag.ts';
export { listFolder } from './list-folder.ts';
export { type BagWish, makeBag, unfinishedName } from './make-bag.ts';
