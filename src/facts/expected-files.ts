/** Which files a camera is set to send of each press of the shutter; what it keeps on its card is not missing here. */
export const expectedFiles = ['raw', 'jpeg', 'both'] as const;
export type ExpectedFiles = (typeof expectedFiles)[number];
