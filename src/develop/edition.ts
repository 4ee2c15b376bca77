/**
 * Raised whenever the same original, look and target give other pixels than before: a rendering of an older edition is made
 * again and never shown as one of this. 1 knew no local parts, no lens and no rebuilt highlights.
 */
export const renderingEdition = 2;
