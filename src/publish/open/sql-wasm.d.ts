/** The database library with its WebAssembly inside; the build of the page takes that out of it again (vite.parts.ts). */
declare module 'sql.js/dist/sql-wasm-inline.js' {
  import initSqlJs from 'sql.js';
  export default initSqlJs;
}
