// For browsers that know no modules, and so never run the boot module.
var problem = document.getElementById("boot-problem");
problem.textContent = problem.getAttribute("data-old");
