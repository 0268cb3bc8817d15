/** The database library with its WebAssembly inside of the file, as one bundle of the command line needs it. */
declare module 'sql.js/dist/sql-wasm-inline.js' {
  import initSqlJs from 'sql.js';
  export default initSqlJs;
}
