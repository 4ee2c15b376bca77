/** Raised whenever a rendering would come out differently, so that kept ones of an older renderer are not used. */
export const rendererVersion = 7;
