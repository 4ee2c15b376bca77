/**
 * Raised whenever the same original, look and target give other pixels than before: a rendering of an older edition is made
 * again and never shown as one of this. 1 knew no local parts, no lens and no rebuilt highlights; 2 went
 * through a lens and a look's geometry one after the other; 3 showed fine lines at half size as bands of colour.
 */
export const renderingEdition = 4;
