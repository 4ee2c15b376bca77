/** bagging: bags on the disk, read and held against themselves. */
export { type BagProgress, type BagReport, checkBag, tagFileBytesMax } from './check-bag.ts';
