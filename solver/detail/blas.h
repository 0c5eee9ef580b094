// SPDX-License-Identifier: GPL-3.0-or-later
// The BLAS and LAPACK routines that we call, by their Fortran names: the C names (cblas_...)
// resolve to GSL's slow reference when deal.II has loaded it before OpenBLAS.
#pragma once
#include <complex>

extern "C" {
void dgemm_(const char *trans_a, const char *trans_b, const int *m, const int *n, const int *k,
            const double *alpha, const double *a, const int *lda, const double *b, const int *ldb,
            const double *beta, double *c, const int *ldc);
void dgesv_(const int *n, const int *n_rhs, double *a, const int *lda, int *pivots, double *b,
            const int *ldb, int *info);
void dpotri_(const char *uplo, const int *n, double *a, const int *lda, int *info);
void dpotrf_(const char *uplo, const int *n, double *a, const int *lda, int *info);
void dpotrs_(const char *uplo, const int *n, const int *n_rhs, const double *a, const int *lda,
             double *b, const int *ldb, int *info);
void dsyrk_(const char *uplo, const char *trans, const int *n, const int *k, const double *alpha,
            const double *a, const int *lda, const double *beta, double *c, const int *ldc);
void dtrsm_(const char *side, const char *uplo, const char *trans, const char *diag, const int *m,
            const int *n, const double *alpha, const double *a, const int *lda, double *b,
            const int *ldb);
void dsygv_(const int *kind, const char *jobz, const char *uplo, const int *n, double *a,
            const int *lda, double *b, const int *ldb, double *values, double *work,
            const int *work_size, int *info);
void zherk_(const char *uplo, const char *trans, const int *n, const int *k, const double *alpha,
            const std::complex<double> *a, const int *lda, const double *beta,
            std::complex<double> *c, const int *ldc);
void zpotrf_(const char *uplo, const int *n, std::complex<double> *a, const int *lda, int *info);
void zpotrs_(const char *uplo, const int *n, const int *n_rhs, const std::complex<double> *a,
             const int *lda, std::complex<double> *b, const int *ldb, int *info);
void ztrsm_(const char *side, const char *uplo, const char *trans, const char *diag, const int *m,
            const int *n, const std::complex<double> *alpha, const std::complex<double> *a,
            const int *lda, std::complex<double> *b, const int *ldb);
}
