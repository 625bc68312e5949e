"""Evidence for a reviewer: a folder of tables without names, and scripts that re-make figures."""
