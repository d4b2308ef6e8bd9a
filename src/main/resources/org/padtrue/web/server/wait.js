'use strict';
// A page that stands where an answer will be asks again by itself.
setTimeout(() => location.reload(), 1000);
