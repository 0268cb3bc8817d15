/** The version that a result was made with; package.json's, which what is shown cannot read (tests/house compare them). */
export const VERSION = '0.1.0';
